#include "scan.h"

#include <linux/input-event-codes.h>
#include <string.h>

static const struct {
	int key;
	char plain, shifted;
} keys[] = {
	{KEY_0, '0', 0},     {KEY_1, '1', 0},	  {KEY_2, '2', 0},	 {KEY_3, '3', 0},
	{KEY_4, '4', '$'},   {KEY_5, '5', '%'},	  {KEY_6, '6', 0},	 {KEY_7, '7', 0},
	{KEY_8, '8', 0},     {KEY_9, '9', 0},	  {KEY_A, 'a', 'a'},	 {KEY_B, 'b', 'b'},
	{KEY_C, 'c', 'c'},   {KEY_D, 'd', 'd'},	  {KEY_E, 'e', 'e'},	 {KEY_F, 'f', 'f'},
	{KEY_G, 'g', 'g'},   {KEY_H, 'h', 'h'},	  {KEY_I, 'i', 'i'},	 {KEY_J, 'j', 'j'},
	{KEY_K, 'k', 'k'},   {KEY_L, 'l', 'l'},	  {KEY_M, 'm', 'm'},	 {KEY_N, 'n', 'n'},
	{KEY_O, 'o', 'o'},   {KEY_P, 'p', 'p'},	  {KEY_Q, 'q', 'q'},	 {KEY_R, 'r', 'r'},
	{KEY_S, 's', 's'},   {KEY_T, 't', 't'},	  {KEY_U, 'u', 'u'},	 {KEY_V, 'v', 'v'},
	{KEY_W, 'w', 'w'},   {KEY_X, 'x', 'x'},	  {KEY_Y, 'y', 'y'},	 {KEY_Z, 'z', 'z'},
	{KEY_KP0, '0', 0},   {KEY_KP1, '1', 0},	  {KEY_KP2, '2', 0},	 {KEY_KP3, '3', 0},
	{KEY_KP4, '4', 0},   {KEY_KP5, '5', 0},	  {KEY_KP6, '6', 0},	 {KEY_KP7, '7', 0},
	{KEY_KP8, '8', 0},   {KEY_KP9, '9', 0},	  {KEY_MINUS, '-', 0},	 {KEY_DOT, '.', 0},
	{KEY_SLASH, '/', 0}, {KEY_EQUAL, 0, '+'}, {KEY_SPACE, ' ', ' '},
};

static char
character(int key, bool shift)
{
	for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
		if (keys[i].key == key)
			return shift ? keys[i].shifted : keys[i].plain;
	return 0;
}

static bool
ended(struct scan *scan, char label[SCAN_LABEL_MAX])
{
	bool good = !scan->spoilt;
	while (scan->length > 0 && scan->label[scan->length - 1] == ' ')
		scan->length--;
	scan->label[scan->length] = '\0';
	const char *first = scan->label + strspn(scan->label, " ");
	good = good && *first != '\0';
	if (good)
		strcpy(label, first);
	scan->length = 0;
	scan->spoilt = false;
	return good;
}

bool
scan_key(struct scan *scan, int key, bool down, int64_t at_ms, char label[SCAN_LABEL_MAX])
{
	if (key == KEY_LEFTSHIFT || key == KEY_RIGHTSHIFT) {
		scan->shift = down;
		return false;
	}
	if (!down)
		return false;
	bool late = (scan->length > 0 || scan->spoilt) && at_ms - scan->last_ms > SCAN_GAP_MS;
	scan->last_ms = at_ms;
	if (late) {
		scan->length = 0;
		scan->spoilt = false;
	}
	if (key == KEY_ENTER || key == KEY_KPENTER || key == KEY_TAB)
		return ended(scan, label);
	char typed = character(key, scan->shift);
	if (typed == 0 || scan->length == SCAN_LABEL_MAX - 1)
		scan->spoilt = true;
	else
		scan->label[scan->length++] = typed;
	return false;
}
