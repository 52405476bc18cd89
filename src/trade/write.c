#include "write.h"

const char *
verdict_name(enum verdict verdict)
{
	static const char *const names[] = {"taken", "doubted", "refused"};
	return names[verdict];
}

const char *
source_name(enum source source)
{
	static const char *const names[] = {"voice", "pedal", "desk"};
	return names[source];
}
