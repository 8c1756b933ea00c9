"""Oracle for spectralResidual.test.ts: the steps of Hou & Zhang 2007 with NumPy's FFT and SciPy's filters.

Needs NumPy and SciPy. Prints the JSON that is kept as spectralResidual.json.
"""
import json
import numpy as np
from scipy.ndimage import gaussian_filter, uniform_filter

N = 64
y, x = np.mgrid[:N, :N].astype(float)
picture = 40 + 10 * np.sin(x * 0.8) + 6 * np.cos(y * 0.45 + x * 0.1)
picture[20:26, 44:50] += 35  # an odd block on a regular ground
spectrum = np.fft.fft2(picture)
log = np.log(np.abs(spectrum) + 1e-12)
residual = log - uniform_filter(log, 3, mode='wrap')
power = np.abs(np.fft.ifft2(np.exp(residual + 1j * np.angle(spectrum)))) ** 2
soft = gaussian_filter(power, 2.5, mode='nearest', truncate=4)
soft /= soft.max()
print(json.dumps({'result': [round(float(v), 7) for v in soft.ravel()]}))
