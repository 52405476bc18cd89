#include "pronunciation.h"

#include "growth.h"
#include "names.h"
#include "work_out.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { WORD_MAX = 63, LINE_MAX_BYTES = 4096 };

/* The ways of saying one word. */
struct entry {
	char **ways; /* phones parted by single spaces */
	int count, room;
	int source; /* the file that they come from */
};

struct pronunciations {
	struct names *words;
	struct entry *entries; /* numbered as the words */
	int room;
	int sources; /* how many files there were */
};

/* A line of a dictionary: the word, without variant mark, and the phones; both into the line. */
struct dictionary_line {
	char *word;
	char *phones; /* "" when there are none */
};

struct pronunciations *
pronunciations_create(void)
{
	struct pronunciations *pronunciations = calloc(1, sizeof *pronunciations);
	if (pronunciations == NULL)
		return NULL;
	pronunciations->words = names_create();
	if (pronunciations->words == NULL) {
		free(pronunciations);
		return NULL;
	}
	return pronunciations;
}

void
pronunciations_destroy(struct pronunciations *pronunciations)
{
	if (pronunciations == NULL)
		return;
	for (int i = 0; i < names_count(pronunciations->words); i++) {
		for (int k = 0; k < pronunciations->entries[i].count; k++)
			free(pronunciations->entries[i].ways[k]);
		free(pronunciations->entries[i].ways);
	}
	free(pronunciations->entries);
	names_destroy(pronunciations->words);
	free(pronunciations);
}

static void
lower_case(char *word)
{
	for (; *word != '\0'; word++)
		if (*word >= 'A' && *word <= 'Z')
			*word = (char)(*word - 'A' + 'a');
}

static const struct entry *
entry_of(const struct pronunciations *pronunciations, const char *word)
{
	int number = names_find(pronunciations->words, word, strlen(word));
	return number < 0 ? NULL : &pronunciations->entries[number];
}

/* Adds a way of saying a word, unless an earlier file has the word, or this one the way. */
static bool
add_way(struct pronunciations *pronunciations, const char *word, const char *phones)
{
	int count = names_count(pronunciations->words);
	if (!growth_reserve(&pronunciations->entries, &pronunciations->room, count + 1,
			    sizeof *pronunciations->entries))
		return false;
	int number = names_add(pronunciations->words, word, strlen(word));
	if (number < 0)
		return false;
	struct entry *entry = &pronunciations->entries[number];
	if (number == count)
		*entry = (struct entry){.source = pronunciations->sources};
	if (entry->source != pronunciations->sources)
		return true;
	for (int i = 0; i < entry->count; i++)
		if (strcmp(entry->ways[i], phones) == 0)
			return true;
	if (!growth_reserve(&entry->ways, &entry->room, entry->count + 1, sizeof *entry->ways))
		return false;
	entry->ways[entry->count] = strdup(phones);
	return entry->ways[entry->count++] != NULL;
}

/* Cuts a line up, in place. False: it is blank, or a comment. */
static bool
cut_line(char *line, struct dictionary_line *cut)
{
	static const char blanks[] = " \t\r\n";
	char *to;

	line += strspn(line, blanks);
	if (*line == '\0' || *line == '#' || (line[0] == ';' && line[1] == ';'))
		return false;
	cut->word = line;
	line += strcspn(line, blanks);
	if (*line != '\0')
		*line++ = '\0';
	to = cut->phones = line;
	for (;;) {
		line += strspn(line, blanks);
		size_t length = strcspn(line, blanks);
		if (length == 0)
			break;
		if (to != cut->phones)
			*to++ = ' ';
		memmove(to, line, length);
		to += length;
		line += length;
	}
	*to = '\0';
	size_t length = strlen(cut->word);
	char *mark = strrchr(cut->word, '(');
	if (mark != NULL && mark > cut->word && cut->word[length - 1] == ')' &&
	    mark[1 + strspn(mark + 1, "0123456789")] == ')')
		*mark = '\0';
	lower_case(cut->word);
	return true;
}

/* The first of the phones that is not in the list, or NULL; its length in *length. */
static const char *
unknown_phone(const char *said, const char *list, size_t *length)
{
	for (; *said != '\0'; said += *length, said += *said == ' ') {
		bool known = false;
		*length = strcspn(said, " ");
		for (const char *at = list; *at != '\0' && !known;) {
			at += strspn(at, " ");
			size_t here = strcspn(at, " ");
			known = here == *length && memcmp(at, said, here) == 0;
			at += here;
		}
		if (!known)
			return said;
	}
	return NULL;
}

static bool
read_line(struct pronunciations *pronunciations, const char *file, int number, char *line,
	  const char *phones, struct problem *problem)
{
	struct dictionary_line cut;
	size_t length = 0;

	if (!cut_line(line, &cut))
		return true;
	if (strlen(cut.word) > WORD_MAX)
		return problem_say(problem, "%s, line %d: a word is longer than %d letters", file,
				   number, WORD_MAX);
	if (cut.phones[0] == '\0')
		return problem_say(problem, "%s, line %d: the sounds of \"%s\" are missing", file,
				   number, cut.word);
	const char *unknown = phones == NULL ? NULL : unknown_phone(cut.phones, phones, &length);
	if (unknown != NULL)
		return problem_say(
			problem,
			"%s, line %d: \"%.*s\" in \"%s\" is no sound that the recogniser "
			"knows; it knows %.200s",
			file, number, (int)(length > 40 ? 40 : length), unknown, cut.word, phones);
	return add_way(pronunciations, cut.word, cut.phones) ||
	       problem_say(problem, "%s: there is no memory left for it", file);
}

bool
pronunciations_read(struct pronunciations *pronunciations, const char *file, const char *text,
		    const char *phones, struct problem *problem)
{
	int number = 0;
	bool good = true;

	pronunciations->sources++;
	while (good && *text != '\0') {
		size_t length = strcspn(text, "\n");
		char line[LINE_MAX_BYTES];
		number++;
		if (length >= sizeof line)
			return problem_say(problem, "%s, line %d: the line is too long", file,
					   number);
		memcpy(line, text, length);
		line[length] = '\0';
		good = read_line(pronunciations, file, number, line, phones, problem);
		text += length;
		text += *text == '\n';
	}
	return good;
}

/* The words that are wanted and not yet there. */
static struct names *
missing_words(const struct pronunciations *pronunciations, const char *const *words, int count)
{
	struct names *missing = names_create();
	for (int i = 0; missing != NULL && i < count; i++) {
		if (entry_of(pronunciations, words[i]) != NULL)
			continue;
		if (names_add(missing, words[i], strlen(words[i])) < 0) {
			names_destroy(missing);
			missing = NULL;
		}
	}
	return missing;
}

bool
pronunciations_look_up(struct pronunciations *pronunciations, const char *path,
		       const char *const *words, int count, struct problem *problem)
{
	struct names *missing = missing_words(pronunciations, words, count);
	FILE *file = fopen(path, "re");
	char *line = NULL;
	size_t size = 0;
	bool good = missing != NULL;

	if (!good)
		problem_say(problem, "%s: there is no memory left for it", path);
	if (good && file == NULL)
		good = problem_say(problem, "the dictionary %s cannot be opened: %s", path,
				   strerror(errno));
	pronunciations->sources++;
	while (good && names_count(missing) > 0 && getline(&line, &size, file) > 0) {
		struct dictionary_line cut;
		/* Most lines are of no interest: they are not cut up. */
		size_t length = strcspn(line, " \t\r\n(");
		if (names_find(missing, line, length) < 0 || !cut_line(line, &cut) ||
		    cut.phones[0] == '\0' || strlen(cut.word) != length)
			continue;
		if (!add_way(pronunciations, cut.word, cut.phones))
			good = problem_say(problem, "%s: there is no memory left for it", path);
	}
	if (good && ferror(file))
		good = problem_say(problem, "the dictionary %s cannot be read: %s", path,
				   strerror(errno));
	if (file != NULL)
		fclose(file);
	free(line);
	names_destroy(missing);
	return good;
}

bool
pronunciations_work_out(struct pronunciations *pronunciations, const char *word,
			struct problem *problem)
{
	char phones[WORKED_OUT_MAX];

	if (!work_out_phones(word, phones, problem))
		return false;
	pronunciations->sources++;
	return add_way(pronunciations, word, phones) ||
	       problem_say(problem, "there is no memory left for the word \"%.80s\"", word);
}

bool
pronunciations_has(const struct pronunciations *pronunciations, const char *word)
{
	return entry_of(pronunciations, word) != NULL;
}

const char *
pronunciations_of(const struct pronunciations *pronunciations, const char *word, int index)
{
	const struct entry *entry = entry_of(pronunciations, word);
	return entry == NULL || index < 0 || index >= entry->count ? NULL : entry->ways[index];
}

char *
pronunciations_dictionary(const struct pronunciations *pronunciations, const char *const *words,
			  int count)
{
	char *text = NULL;
	size_t size = 0;
	FILE *to = open_memstream(&text, &size);

	if (to == NULL)
		return NULL;
	for (int i = 0; i < count; i++) {
		const struct entry *entry = entry_of(pronunciations, words[i]);
		for (int k = 0; entry != NULL && k < entry->count; k++) {
			if (k == 0)
				fprintf(to, "%s %s\n", words[i], entry->ways[k]);
			else
				fprintf(to, "%s(%d) %s\n", words[i], k + 1, entry->ways[k]);
		}
	}
	bool failed = ferror(to) != 0;
	if (fclose(to) != 0 || failed) {
		free(text);
		return NULL;
	}
	return text;
}
