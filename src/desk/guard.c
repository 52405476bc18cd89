#include "guard.h"

#include <arpa/inet.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sys/random.h>
#include <sys/socket.h>

bool
guard_same_secret(const char *one, const char *other)
{
	size_t length = strlen(one), other_length = strlen(other);
	unsigned char differ = length != other_length;
	for (size_t i = 0; i < other_length; i++)
		differ |= (unsigned char)(other[i] ^ one[length == 0 ? 0 : i % length]);
	return differ == 0;
}

bool
guard_make_secret(char *secret, size_t size)
{
	unsigned char bytes[16];
	if (getrandom(bytes, sizeof bytes, 0) != sizeof bytes || size <= 2 * sizeof bytes)
		return false;
	for (size_t i = 0; i < sizeof bytes; i++)
		snprintf(secret + 2 * i, 3, "%02x", bytes[i]);
	return true;
}

static const char *
header(const struct request *request, const char *name)
{
	return MHD_lookup_connection_value(request->connection, MHD_HEADER_KIND, name);
}

/* The address that the connection came in at, as figures: only that is known to be ours, whatever
 * names point to it. */
static bool
own_address(const struct request *request, char *host, size_t size, bool *loopback)
{
	const union MHD_ConnectionInfo *info =
		MHD_get_connection_info(request->connection, MHD_CONNECTION_INFO_CONNECTION_FD);
	struct sockaddr_storage address;
	socklen_t length = sizeof address;
	char figures[INET6_ADDRSTRLEN];
	if (info == NULL ||
	    getsockname(info->connect_fd, (struct sockaddr *)&address, &length) != 0)
		return false;
	if (address.ss_family == AF_INET) {
		const struct sockaddr_in *in = (const struct sockaddr_in *)&address;
		*loopback = (ntohl(in->sin_addr.s_addr) >> 24) == 127;
		inet_ntop(AF_INET, &in->sin_addr, figures, sizeof figures);
		snprintf(host, size, "%s", figures);
		return true;
	}
	const struct sockaddr_in6 *in6 = (const struct sockaddr_in6 *)&address;
	*loopback = IN6_IS_ADDR_LOOPBACK(&in6->sin6_addr);
	inet_ntop(AF_INET6, &in6->sin6_addr, figures, sizeof figures);
	snprintf(host, size, "[%s]", figures);
	return address.ss_family == AF_INET6;
}

static bool
host_is(const char *host, const char *name, int port)
{
	char whole[INET6_ADDRSTRLEN + 16];
	snprintf(whole, sizeof whole, "%s:%d", name, port);
	return strcasecmp(host, whole) == 0 || (port == 80 && strcasecmp(host, name) == 0);
}

static bool
own_host(const struct request *request, const char *host)
{
	char address[INET6_ADDRSTRLEN + 2];
	bool loopback;
	if (host == NULL || !own_address(request, address, sizeof address, &loopback))
		return false;
	return host_is(host, address, request->desk->port) ||
	       (loopback && host_is(host, "localhost", request->desk->port));
}

static bool
own_origin(const char *origin, const char *host)
{
	static const char scheme[] = "http://";
	return strncmp(origin, scheme, sizeof scheme - 1) == 0 &&
	       strcasecmp(origin + sizeof scheme - 1, host) == 0;
}

static bool
has_secret(struct request *request)
{
	const struct desk *desk = request->desk;
	const char *key =
		MHD_lookup_connection_value(request->connection, MHD_GET_ARGUMENT_KIND, "key");
	const char *cookie =
		MHD_lookup_connection_value(request->connection, MHD_COOKIE_KIND, desk->cookie);
	request->by_key = !request->is_post && key != NULL && guard_same_secret(desk->key, key);
	return request->by_key || (cookie != NULL && guard_same_secret(desk->key, cookie));
}

/* Of a post: only a page of ours sends it, and only as JSON, which no form can. */
static const char *
post_refused(const struct request *request, const char *origin, unsigned *status)
{
	static const char json[] = "application/json";
	const char *type = header(request, MHD_HTTP_HEADER_CONTENT_TYPE);
	const char *length = header(request, MHD_HTTP_HEADER_CONTENT_LENGTH);
	*status = 403;
	if (origin == NULL)
		return "this was not sent by a page of the desk";
	*status = 415;
	if (type == NULL || strncasecmp(type, json, sizeof json - 1) != 0 ||
	    (type[sizeof json - 1] != '\0' && type[sizeof json - 1] != ';'))
		return "only JSON is taken";
	*status = 413;
	if (length != NULL && (strlen(length) > 9 || atol(length) > REQUEST_BODY_MAX))
		return "that is more than is taken at once";
	return NULL;
}

const char *
guard_refuses(struct request *request, unsigned *status)
{
	const char *host = header(request, MHD_HTTP_HEADER_HOST);
	const char *origin = header(request, MHD_HTTP_HEADER_ORIGIN);
	*status = 403;
	if (!own_host(request, host))
		return "the desk does not answer to this name: use the address that it printed";
	if (origin != NULL && !own_origin(origin, host))
		return "another site may not ask this";
	if (!has_secret(request))
		return "the key is missing: open the address that the desk printed when it was "
		       "started";
	return request->is_post ? post_refused(request, origin, status) : NULL;
}
