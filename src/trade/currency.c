#include "currency.h"

#include <string.h>

/* ISO 4217 list one: the codes that have a minor unit. Read in a copy of the list of 12 May 2025,
 * less BGN (Bulgaria took the euro in 2026; from memory); what is left agrees in number with a
 * summary of the list of 17 September 2026: 139 codes with 2 decimals, 17 with none, 7 with 3, 2
 * with 4. Its 13 others (metals, bond units, test codes) have no minor unit and are no money. */
static const struct decimals {
	int decimals;
	const char *codes; /* four characters each, the last without its blank */
} DECIMALS[] = {
	{2, "AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BMD BND "
	    "BOB BOV BRL BSD BTN BWP BYN BZD CAD CDF CHE CHF CHW CNY "
	    "COP COU CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD "
	    "FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS "
	    "INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL "
	    "MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR "
	    "MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR "
	    "RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP "
	    "STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH USD "
	    "USN UYU UZS VED VES WST XAD XCD XCG YER ZAR ZMW ZWG"},
	{0, "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV "
	    "XAF XOF XPF"},
	{3, "BHD IQD JOD KWD LYD OMR TND"},
	{4, "CLF UYW"},
};

/* The currencies whose units have plain English names, which is how their users say them. */
static const struct units {
	struct currency_words words;
	const char *codes;
} UNITS[] = {
	{{"dollar", "dollars", "cent", "cents"},
	 "USD AUD BBD BMD BND BSD BZD CAD FJD GYD HKD JMD KYD LRD NAD NZD SBD SGD SRD TTD TWD XCD"},
	{{"pound", "pounds", "penny", "pence"}, "GBP FKP GIP SHP"},
	{{"euro", "euros", "cent", "cents"}, "EUR"},
	{{"yen", "yen", NULL, NULL}, "JPY"},
};

static bool
listed(const char *codes, const char *code)
{
	if (strlen(code) != 3)
		return false;
	for (; strlen(codes) >= 3; codes += 4) {
		if (memcmp(codes, code, 3) == 0)
			return true;
		if (codes[3] == '\0')
			break;
	}
	return false;
}

int
currency_decimals(const char *code)
{
	for (size_t i = 0; i < sizeof DECIMALS / sizeof DECIMALS[0]; i++) {
		if (listed(DECIMALS[i].codes, code))
			return DECIMALS[i].decimals;
	}
	return -1;
}

const struct currency_words *
currency_words(const char *code)
{
	static const struct currency_words NONE = {NULL, NULL, NULL, NULL};
	for (size_t i = 0; i < sizeof UNITS / sizeof UNITS[0]; i++) {
		if (listed(UNITS[i].codes, code))
			return &UNITS[i].words;
	}
	return &NONE;
}
