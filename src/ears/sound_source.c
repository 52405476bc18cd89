#include "sound_source.h"

#include <string.h>

int
sound_source_fd(struct sound_source *source)
{
	return source->functions->fd(source);
}

enum sound_news
sound_source_next(struct sound_source *source, int16_t *samples, int64_t most,
		  struct sound_piece *piece)
{
	memset(piece, 0, sizeof *piece);
	return source->functions->next(source, samples, most, piece);
}

void
sound_source_close(struct sound_source *source)
{
	if (source != NULL)
		source->functions->close(source);
}
