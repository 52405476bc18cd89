/* mean: what texts mean. Reads lines of words, prints for each a JSON array of calls (empty: none).
 * The measuring scripts hold what was heard against it.
 *
 * Usage: mean GRAMMARS < TEXTS
 *        mean GRAMMARS --grammar    the station's grammar for an open item, as JSGF */
#include "call_json.h"
#include "meaning.h"
#include "station.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int
main(int count, char **argument)
{
	struct problem problem = {""};
	struct meaning_setting setting = {LENGTH_INCH, "USD"};
	struct words words;
	struct meaning meaning;
	char line[WORDS_TEXT_MAX];
	struct vocabulary *vocabulary =
		count >= 2 ? station_vocabulary(argument[1], NULL, &problem) : NULL;
	if (vocabulary == NULL) {
		fprintf(stderr, "mean: %s\n", count >= 2 ? problem.text : "usage: mean GRAMMARS");
		return 1;
	}
	if (count == 3) {
		char *grammar = station_grammar(argument[1], vocabulary, STATION_ITEM, &problem);
		printf("%s", grammar != NULL ? grammar : "");
		free(grammar);
		vocabulary_destroy(vocabulary);
		return grammar == NULL;
	}
	while (fgets(line, sizeof line, stdin) != NULL) {
		json_t *list = json_array();
		line[strcspn(line, "\n")] = '\0';
		if (words_split(&words, line) &&
		    meaning_read(vocabulary, &setting, &words, &meaning))
			for (int i = 0; i < meaning.count; i++)
				json_array_append_new(list, call_to_json(&meaning.calls[i]));
		json_dumpf(list, stdout, JSON_COMPACT | JSON_SORT_KEYS);
		putchar('\n');
		json_decref(list);
	}
	vocabulary_destroy(vocabulary);
	return 0;
}
