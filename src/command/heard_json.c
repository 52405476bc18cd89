#include "heard_json.h"

#include "call_json.h"

#include <math.h>

static json_t *
rounded(double value, double steps)
{
	return json_real(round(value * steps) / steps);
}

json_t *
heard_json_alternatives(const struct ears_utterance *utterance)
{
	json_t *list = json_array();
	for (int i = 1; i < utterance->reading_count; i++) {
		json_t *other = json_object();
		json_object_set_new(other, "text", json_string(utterance->readings[i].text));
		json_object_set_new(other, "confidence",
				    rounded(utterance->readings[i].confidence, 1e4));
		json_array_append_new(list, other);
	}
	return list;
}

static json_t *
calls_json(const struct ears_utterance *utterance)
{
	json_t *list = json_array();
	if (utterance->reading_count == 0)
		return list;
	const struct meaning *meaning = &utterance->readings[0].meaning;
	for (int i = 0; i < meaning->count; i++) {
		if (utterance->call_verdicts[i] == VERDICT_REFUSED)
			continue;
		json_t *call = call_to_json(&meaning->calls[i]);
		json_object_set_new(call, "verdict",
				    json_string(verdict_name(utterance->call_verdicts[i])));
		json_object_set_new(call, "confidence",
				    rounded(utterance->call_confidences[i], 1e4));
		json_array_append_new(list, call);
	}
	return list;
}

json_t *
heard_json(const char *file, const struct ears_utterance *utterance, bool own_grammar)
{
	json_t *object = json_object();
	const char *text = utterance->reading_count > 0 ? utterance->readings[0].text : "";
	json_object_set_new(object, "file", json_string(file));
	json_object_set_new(object, "start_ms", json_integer(utterance->start_ms));
	json_object_set_new(object, "end_ms", json_integer(utterance->end_ms));
	json_object_set_new(object, "decided_ms", json_integer(utterance->decided_ms));
	json_object_set_new(object, "decided_by",
			    json_string(decided_by_name(utterance->decided_by)));
	json_object_set_new(object, "compute_ms", rounded(utterance->compute_ms, 1e3));
	json_object_set_new(object, "text", json_string(text));
	json_object_set_new(object, "verdict", json_string(verdict_name(utterance->verdict)));
	json_object_set_new(object, "confidence", rounded(utterance->confidence, 1e4));
	json_object_set_new(object, "alternatives", heard_json_alternatives(utterance));
	if (!own_grammar)
		json_object_set_new(object, "calls", calls_json(utterance));
	json_t *evidence = json_loads(utterance->evidence, 0, NULL);
	json_object_set_new(object, "evidence", evidence != NULL ? evidence : json_object());
	return object;
}
