"""Makes the CSV files beside it with SciPy, an implementation independent of the Java code that they check.

Ran with Debian's Python 3.11, SciPy 1.10.1, NumPy 1.24.2: /usr/bin/python3 recipe.py
The input is a formula that the tests repeat: sines and a linear congruential noise, see wave().
"""
import math
import os

import numpy as np
import scipy
from scipy import ndimage, signal, stats

HERE = os.path.dirname(os.path.abspath(__file__))
RATE_HZ = 8000.0
BAND_CENTRE_HZ = 200.0


def noise(count, seed):
    """Evenly spread in -1 to 1: n -> 16807 n mod 2147483647, the generator of NIST SP 1065, section 12.4."""
    out = np.empty(count)
    for i in range(count):
        seed = 16807 * seed % 2147483647
        out[i] = 2 * seed / 2147483647 - 1
    return out


def wave(count, seed):
    """Three sines at 8 kHz, an offset and noise."""
    t = np.arange(count) / RATE_HZ
    tau = 2 * math.pi
    return (0.3 + np.sin(tau * 200 * t + 0.4) + 0.5 * np.sin(tau * 313.7 * t + 1.1)
            + 0.4 * np.sin(tau * 1234.5 * t + 2.3) + 0.2 * noise(count, seed))


def fade(count, over):
    """Raised-cosine rise over the first and fall over the last samples: then both ends are quiet."""
    n = np.arange(count)
    edge = np.minimum(1, np.minimum(n, count - n) / over)
    return 0.5 - 0.5 * np.cos(math.pi * edge)


def write(name, header, rows):
    with open(os.path.join(HERE, name), "w", newline="\n") as out:
        out.write(",".join(header) + "\n")
        for row in rows:
            out.write(",".join(format(v, ".17g") if isinstance(v, float) else str(v) for v in row) + "\n")


def windows():
    w = signal.windows
    flat = [1, 1.942604, 1.340318, 0.440811, 0.043097]
    makers = {
        "RECTANGULAR": lambda n: w.boxcar(n, sym=False),
        "HANN": lambda n: w.hann(n, sym=False),
        "BLACKMAN_HARRIS_4": lambda n: w.blackmanharris(n, sym=False),
        "FLAT_TOP_90": lambda n: w.general_cosine(n, flat, sym=False),
    }
    rows = [(name, n, i, float(v)) for name, make in makers.items() for n in (15, 16, 100)
            for i, v in enumerate(make(n))]
    write("windows.csv", ["window", "length", "index", "weight"], rows)


def spectra():
    """One-sided power of centred frames, and the spectrum of the same frames as they are; both over the window's sum."""
    x = wave(1000, 1)
    shared = dict(fs=RATE_HZ, window="hann", nperseg=128, noverlap=64)
    _, _, power = signal.spectrogram(x, detrend="constant", scaling="spectrum", **shared)
    _, _, plain = signal.stft(x, detrend=False, boundary=None, padded=False, **shared)
    rows = [(f, k, float(power[k, f]), float(plain[k, f].real), float(plain[k, f].imag))
            for f in range(power.shape[1]) for k in range(power.shape[0])]
    write("spectra.csv", ["frame", "bin", "power_centred", "real", "imaginary"], rows)


def band_gain(share):
    """0 up to 0.05 and from 1.95 on, 1 from 0.45 to 1.5, raised cosines between."""
    rise = np.clip((share - 0.05) / 0.40, 0, 1)
    fall = np.clip((1.95 - share) / 0.45, 0, 1)
    return (0.5 - 0.5 * np.cos(math.pi * rise)) * (0.5 - 0.5 * np.cos(math.pi * fall))


def band():
    """A symmetric FIR of 8001 taps, so no delay; other rates by SciPy's resampling through the whole spectrum.

    lost_rms: what a white input of the same level would leave in the taps beyond half a frame, cut off and folded back.
    """
    x = fade(3000, 500) * wave(3000, 7)
    grid = np.linspace(0, RATE_HZ / 2, 65537)
    taps = signal.firwin2(8001, grid, band_gain(grid / BAND_CENTRE_HZ), nfreqs=65537, window=None, fs=RATE_HZ)
    padded = np.concatenate([np.zeros(4000), x, np.zeros(4000)])
    y = signal.fftconvolve(padded, taps, mode="same")
    away = np.abs(np.arange(8001) - 4000)
    level = np.sqrt(np.mean(x[500:2500] ** 2))
    tails = [(frame, float(level * np.sqrt(2 * np.sum(taps[away > frame / 2] ** 2)))) for frame in (512, 1024, 2048)]
    write("band_filter_tails.csv", ["frame", "lost_rms"], tails)
    rows = []
    for factor, step in ((0.25, 1), (1.0, 3), (4.0, 13)):
        count = int(3000 * factor)
        z = y if factor == 1 else signal.resample(y, int(len(y) * factor))
        kept = z[int(4000 * factor):][:count]
        rows += [(factor, i, float(kept[i])) for i in range(0, count, step)]
    write("band_filter.csv", ["rate_factor", "index", "value"], rows)


def sweeps():
    rows = []
    for from_hz, to_hz, seconds in ((20.0, 400.0, 10.0), (100.0, 1500.0, 4.0)):
        t = np.linspace(0, seconds, 101)
        values = signal.chirp(t, from_hz, seconds, to_hz, method="linear", phi=-90)
        rows += [(from_hz, to_hz, seconds, float(a), float(b)) for a, b in zip(t, values)]
    write("sweeps.csv", ["from_hz", "to_hz", "sweep_s", "time_s", "value"], rows)


def statistics():
    x = np.arange(300) / 10
    y = 2.5 - 0.7 * x + 3 * noise(300, 11) ** 3
    line = stats.linregress(x, y)
    rows = [("intercept", line.intercept), ("slope", line.slope), ("slope_error", line.stderr)]
    for count in (299, 300):
        rows += [(f"median_{count}", np.median(y[:count])),
                 (f"mad_{count}", stats.median_abs_deviation(y[:count])),
                 (f"sigma_{count}", stats.median_abs_deviation(y[:count], scale="normal"))]
    write("statistics.csv", ["quantity", "value"], [(k, float(v)) for k, v in rows])
    running = ndimage.median_filter(y, size=15)
    write("running_median.csv", ["index", "value"], [(i, float(running[i])) for i in range(7, 293)])


if __name__ == "__main__":
    print("SciPy", scipy.__version__, "NumPy", np.__version__)
    windows()
    spectra()
    band()
    sweeps()
    statistics()
