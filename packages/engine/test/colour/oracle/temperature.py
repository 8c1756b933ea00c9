"""Colour temperatures by LittleCMS 2 (Debian liblcms2-2): its CIE daylight locus (cmsWhitePointFromTemp), and the
temperature it gives to our Planckian chromaticities (cmsTempFromWhitePoint, the isotherms of Robertson 1968).

Run: /usr/bin/python3 temperature.py > temperature.json
"""
import ctypes
import json

lcms = ctypes.CDLL("liblcms2.so.2")


class XyY(ctypes.Structure):
    _fields_ = [("x", ctypes.c_double), ("y", ctypes.c_double), ("Y", ctypes.c_double)]


def white_point(kelvin):
    p = XyY()
    assert lcms.cmsWhitePointFromTemp(ctypes.byref(p), ctypes.c_double(kelvin))
    return {"kelvin": kelvin, "x": p.x, "y": p.y}


def temperature(x, y):
    kelvin = ctypes.c_double()
    p = XyY(x, y, 1)
    assert lcms.cmsTempFromWhitePoint(ctypes.byref(kelvin), ctypes.byref(p))
    return kelvin.value


def krystek(t):
    """The rational approximations of Krystek 1985, written out a second time."""
    u = (0.860117757 + 1.54118254e-4 * t + 1.28641212e-7 * t**2) / (1 + 8.42420235e-4 * t + 7.08145163e-7 * t**2)
    v = (0.317398726 + 4.22806245e-5 * t + 4.20481691e-8 * t**2) / (1 - 2.89741816e-5 * t + 1.61456053e-7 * t**2)
    return 3 * u / (2 * u - 8 * v + 4), 2 * v / (2 * u - 8 * v + 4)


def planck(kelvin):
    x, y = krystek(kelvin)
    return {"kelvin": kelvin, "x": x, "y": y, "robertson": temperature(x, y)}


print(json.dumps({
    "daylight": [white_point(t) for t in (4000, 5000, 5503, 6504, 7504, 10000, 15000, 25000)],
    # CIE 15: illuminant A, 2856 K.
    "illuminantA": [{"kelvin": 2856, "x": 0.44757, "y": 0.40745}],
    "planck": [planck(t) for t in (1700, 2000, 2400, 2856, 3500, 4000, 5000, 6500, 8000, 10000, 15000)],
}))
