/* A room in which devices are plugged in and pulled out, for a program that runs in it:
 *
 *   umockdev-wrapper device_room PROGRAM ARGUMENT...
 *
 * By lines on standard input: `plug pedal NUMBER FILE` and `plug reader NUMBER FILE` (NUMBER is the
 * event's, FILE an evemu list of what it will tell), `pull NUMBER`; `quit` or the end of the input
 * ends the program by SIGTERM. Says `program PID` at the beginning, `plugged` and `pulled` after
 * each, and `ended STATUS` at the end, amid what the program prints. */
#include "device_files.h"

#include <fcntl.h>
#include <signal.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

/* LAPEL_PRELOAD, for the program alone, before what is preloaded already. */
static void
preload_more(void)
{
	char both[4096];
	const char *more = getenv("LAPEL_PRELOAD"), *already = getenv("LD_PRELOAD");
	snprintf(both, sizeof both, "%s:%s", more != NULL ? more : "",
		 already != NULL ? already : "");
	setenv("LD_PRELOAD", both, 1);
}

static bool
obey(UMockdevTestbed *testbed, const char *line, const char *scratch)
{
	char sort[16], file[512], *events = NULL;
	int number;
	if (sscanf(line, "plug %15s %d %511s", sort, &number, file) == 3 &&
	    g_file_get_contents(file, &events, NULL, NULL)) {
		bool plugged = device_plug_in(testbed, number, strcmp(sort, "reader") == 0, events,
					      scratch);
		puts(plugged ? "plugged" : "not plugged");
		g_free(events);
	} else if (sscanf(line, "pull %d", &number) == 1) {
		device_pull_out(testbed, number);
		puts("pulled");
	}
	return strcmp(line, "quit\n") != 0;
}

int
main(int count, char **argument)
{
	char line[600], scratch[] = "/tmp/lapel-room-XXXXXX";
	int status = 0, descriptor = mkstemp(scratch);
	if (count < 2 || descriptor < 0)
		return 2;
	close(descriptor);
	setvbuf(stdout, NULL, _IOLBF, 0);
	UMockdevTestbed *testbed = umockdev_testbed_new();
	pid_t program = fork();
	if (program == 0) {
		dup2(open("/dev/null", O_RDONLY), STDIN_FILENO);
		preload_more();
		execv(argument[1], argument + 1);
		_exit(127);
	}
	printf("program %d\n", (int)program);
	while (fgets(line, sizeof line, stdin) != NULL && obey(testbed, line, scratch))
		continue;
	kill(program, SIGTERM);
	waitpid(program, &status, 0);
	printf("ended %d\n", WIFEXITED(status) ? WEXITSTATUS(status) : -1);
	g_object_unref(testbed);
	unlink(scratch);
	return 0;
}
