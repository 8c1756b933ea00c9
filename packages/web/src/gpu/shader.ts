/** One triangle that covers everything. */
export const VERTEX = `#version 300 es
void main() {
  vec2 corner = vec2(gl_VertexID == 1 ? 3.0 : -1.0, gl_VertexID == 2 ? 3.0 : -1.0);
  gl_Position = vec4(corner, 0.0, 1.0);
}`;

/**
 * Reads a baked table at each place of the picture: tetrahedral between its places (four fetches), linear between
 * two covers. No colour arithmetic of its own: the kernel has done it all.
 */
export const FRAGMENT = `#version 300 es
precision highp float;
precision highp sampler2D;
precision highp sampler3D;
uniform sampler2D picture;
uniform sampler2D cover;
uniform sampler3D table;
uniform int side;
uniform int levels;
uniform vec3 low;
uniform vec3 high;
uniform bool last;
out vec4 result;

vec3 place(ivec3 at, int level) {
  return texelFetch(table, ivec3(at.xy, at.z + level * side), 0).rgb;
}

vec3 look(vec3 p, int level) {
  ivec3 a = min(ivec3(p), ivec3(side - 2));
  vec3 f = p - vec3(a);
  vec3 c000 = place(a, level);
  vec3 c111 = place(a + 1, level);
  // The two corners between, in the order in which the channels fall.
  ivec3 first, second;
  vec3 s;
  if (f.r >= f.g) {
    if (f.g >= f.b) { first = ivec3(1, 0, 0); second = ivec3(1, 1, 0); s = f.rgb; }
    else if (f.r >= f.b) { first = ivec3(1, 0, 0); second = ivec3(1, 0, 1); s = f.rbg; }
    else { first = ivec3(0, 0, 1); second = ivec3(1, 0, 1); s = f.brg; }
  } else {
    if (f.r >= f.b) { first = ivec3(0, 1, 0); second = ivec3(1, 1, 0); s = f.grb; }
    else if (f.g >= f.b) { first = ivec3(0, 1, 0); second = ivec3(0, 1, 1); s = f.gbr; }
    else { first = ivec3(0, 0, 1); second = ivec3(0, 1, 1); s = f.bgr; }
  }
  return (1.0 - s.x) * c000 + (s.x - s.y) * place(a + first, level)
    + (s.y - s.z) * place(a + second, level) + s.z * c111;
}

void main() {
  ivec2 at = ivec2(gl_FragCoord.xy);
  // The page's rows run down, those of the card up.
  if (last) at.y = textureSize(picture, 0).y - 1 - at.y;
  vec4 here = texelFetch(picture, at, 0);
  vec3 p = clamp((here.rgb - low) / (high - low), 0.0, 1.0) * float(side - 1);
  vec3 colour;
  if (levels == 1) colour = look(p, 0);
  else {
    float k = texelFetch(cover, at, 0).r * float(levels - 1);
    int level = min(int(k), levels - 2);
    colour = mix(look(p, level), look(p, level + 1), k - float(level));
  }
  result = last ? vec4(colour * here.a, here.a) : vec4(colour, here.a);
}`;
