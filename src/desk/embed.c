/* Writes the files of the page as a table in C; run while lapel is built.
 * Usage: embed OUT.c FILE... */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const struct {
	const char *ending, *type;
} types[] = {
	{".html", "text/html; charset=utf-8"},
	{".css", "text/css; charset=utf-8"},
	{".js", "text/javascript; charset=utf-8"},
	{".svg", "image/svg+xml"},
	{".png", "image/png"},
	{".ico", "image/x-icon"},
	{".woff2", "font/woff2"},
	{".txt", "text/plain; charset=utf-8"},
};

static const char *
type_of(const char *name)
{
	for (size_t i = 0; i < sizeof types / sizeof *types; i++) {
		const char *ending = strrchr(name, '.');
		if (ending != NULL && strcmp(ending, types[i].ending) == 0)
			return types[i].type;
	}
	fprintf(stderr, "embed: %s: a file of this kind is not known\n", name);
	exit(1);
}

static const char *
base_name(const char *path)
{
	const char *slash = strrchr(path, '/');
	return slash == NULL ? path : slash + 1;
}

/* With a zero behind the last byte, so that text can be used as text. */
static void
write_bytes(FILE *out, const char *path, int number)
{
	FILE *in = fopen(path, "rb");
	int byte;
	if (in == NULL) {
		perror(path);
		exit(1);
	}
	fprintf(out, "static const unsigned char file_%d[] = {", number);
	for (long at = 0; (byte = getc(in)) != EOF; at++)
		fprintf(out, "%s%d,", at % 24 == 0 ? "\n" : "", byte);
	fprintf(out, "0};\n");
	fclose(in);
}

int
main(int count, char **argument)
{
	FILE *out = count > 2 ? fopen(argument[1], "w") : NULL;
	if (out == NULL) {
		fprintf(stderr, "usage: embed OUT.c FILE...\n");
		return 1;
	}
	fprintf(out, "#include \"page_files.h\"\n");
	for (int i = 2; i < count; i++)
		write_bytes(out, argument[i], i);
	fprintf(out, "const struct page_file page_files[] = {\n");
	for (int i = 2; i < count; i++)
		fprintf(out, "{\"%s\", \"%s\", file_%d, sizeof file_%d - 1},\n",
			base_name(argument[i]), type_of(argument[i]), i, i);
	fprintf(out, "};\nconst int page_file_count = %d;\n", count - 2);
	return fclose(out) == 0 ? 0 : 1;
}
