"""Oracle for show.test.ts: what Pillow reads from animated.webp. Prints the JSON that is kept as animatedWebp.json.

Needs Pillow with WebP. animated.webp is written by HALFLIGHT_KEEP=1 npx vitest run packages/files/test/node/show.test.ts
"""
import json
import os

from PIL import Image, ImageStat

image = Image.open(os.path.join(os.path.dirname(__file__), "animated.webp"))
frames = []
for k in range(image.n_frames):
    image.seek(k)
    image.load()
    frames.append({"duration": image.info["duration"], "mean": [round(v, 2) for v in ImageStat.Stat(image.convert("RGB")).mean]})
print(json.dumps({"size": list(image.size), "frames": frames}))
