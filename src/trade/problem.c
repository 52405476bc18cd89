#include "problem.h"

#include <stdarg.h>
#include <stdio.h>

bool
problem_say(struct problem *problem, const char *format, ...)
{
	if (problem != NULL) {
		va_list arguments;
		va_start(arguments, format);
		vsnprintf(problem->text, sizeof problem->text, format, arguments);
		va_end(arguments);
	}
	return false;
}
