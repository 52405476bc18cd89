#include "bandwidth.h"

#include <complex.h>
#include <math.h>
#include <string.h>

enum { RATE_HZ = 16000 };
static const double quietest_mean_square = 30.0 * 30.0; /* -61 dBFS: no speech into a headset */
static const double loud_ratio = 1.0 / 316;		/* within 25 dB of the loudest */
static const double narrow_db = -52;

void
bandwidth_init(struct bandwidth *bandwidth)
{
	memset(bandwidth, 0, sizeof *bandwidth);
}

/* The discrete Fourier transform of a power of two of values, in place. */
static void
transform(double complex *values, int count)
{
	for (int i = 1, j = 0; i < count; i++) {
		int bit = count >> 1;
		for (; j & bit; bit >>= 1)
			j ^= bit;
		j ^= bit;
		if (i < j) {
			double complex other = values[i];
			values[i] = values[j];
			values[j] = other;
		}
	}
	for (int span = 2; span <= count; span *= 2) {
		double complex step = cexp(-2 * M_PI * I / span);
		for (int from = 0; from < count; from += span) {
			double complex turn = 1;
			for (int i = from; i < from + span / 2; i++, turn *= step) {
				double complex low = values[i], high = values[i + span / 2] * turn;
				values[i] = low + high;
				values[i + span / 2] = low - high;
			}
		}
	}
}

static void
add_frame(struct bandwidth *bandwidth)
{
	double complex values[BANDWIDTH_WINDOW];
	double sum = 0;
	for (int i = 0; i < BANDWIDTH_WINDOW; i++)
		sum += (double)bandwidth->window[i] * bandwidth->window[i];
	double mean_square = sum / BANDWIDTH_WINDOW;
	bandwidth->loudest = fmax(bandwidth->loudest, mean_square);
	if (mean_square < quietest_mean_square || mean_square < bandwidth->loudest * loud_ratio)
		return;
	/* Blackman-Harris, whose side lobes lie 92 dB down: what is loud at 1 kHz must not be taken
	 * for something at 5 kHz (Harris, On the use of windows, 1978). */
	for (int i = 0; i < BANDWIDTH_WINDOW; i++) {
		double turn = 2 * M_PI * i / BANDWIDTH_WINDOW;
		values[i] =
			bandwidth->window[i] * (0.35875 - 0.48829 * cos(turn) +
						0.14128 * cos(2 * turn) - 0.01168 * cos(3 * turn));
	}
	transform(values, BANDWIDTH_WINDOW);
	for (int i = 0; i < BANDWIDTH_BINS; i++)
		bandwidth->power[i] += creal(values[i] * conj(values[i]));
	bandwidth->frames++;
}

void
bandwidth_add(struct bandwidth *bandwidth, const int16_t *samples, int64_t count)
{
	for (int64_t i = 0; i < count; i++) {
		bandwidth->window[bandwidth->filled++] = samples[i];
		if (bandwidth->filled < BANDWIDTH_WINDOW)
			continue;
		add_frame(bandwidth);
		bandwidth->filled = 0;
	}
}

bool
bandwidth_known(const struct bandwidth *bandwidth)
{
	return bandwidth->frames >= BANDWIDTH_FRAMES_MIN;
}

static double
mean_power(const struct bandwidth *bandwidth, int from_hz, int to_hz)
{
	int first = from_hz * BANDWIDTH_WINDOW / RATE_HZ, last = to_hz * BANDWIDTH_WINDOW / RATE_HZ;
	double sum = 0;
	for (int i = first; i <= last; i++)
		sum += bandwidth->power[i];
	return sum / (last - first + 1);
}

double
bandwidth_above_4_khz_db(const struct bandwidth *bandwidth)
{
	double low = mean_power(bandwidth, 300, 3400), high = mean_power(bandwidth, 4250, 7500);
	return 10 * log10((high + 1e-9) / (low + 1e-9));
}

bool
bandwidth_narrow(const struct bandwidth *bandwidth)
{
	return bandwidth_known(bandwidth) && bandwidth_above_4_khz_db(bandwidth) < narrow_db;
}
