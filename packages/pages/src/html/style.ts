import { GREY } from '../page/greys.ts';

/** The look of every HTML page: neutral greys, one face, four sizes; prints on A4. */
export const STYLE = `
:root{color-scheme:light;--measure:36rem}
*{box-sizing:border-box}
body{margin:0;background:${GREY.ground};color:${GREY.ink};font:400 .9375rem/1.5 "Halflight Text",system-ui,sans-serif;font-feature-settings:"tnum";-webkit-text-size-adjust:100%}
main,header,footer{max-width:62rem;margin:0 auto;padding:0 clamp(1rem,4vw,3rem)}
header{padding-top:clamp(1.5rem,5vw,3rem)}
h1,h2,h3,p,figure,ol,ul,dl,dd{margin:0}
h1{font-size:1.5rem;line-height:1.3;font-weight:600;overflow-wrap:anywhere}
h2{font-size:1.125rem;line-height:1.4;font-weight:600;margin-top:2.75rem;break-after:avoid}
.under{font-size:.75rem;line-height:1.45;color:${GREY.quiet};margin-top:.25rem;overflow-wrap:anywhere}
.note{font-size:1.125rem;line-height:1.45;max-width:34rem;margin-top:1.5rem}
.text{max-width:var(--measure);margin-top:.5rem}
.caption{font-size:.75rem;line-height:1.45;color:${GREY.quiet};max-width:var(--measure);margin-top:.5rem}
.wall{background:${GREY.wall};margin-top:1.5rem;padding:clamp(.75rem,2.5vw,2rem);display:grid;gap:clamp(.75rem,1.5vw,1.25rem);justify-items:center;align-items:center;break-inside:avoid}
.wall.bleed{margin-left:calc(50% - 50vw);margin-right:calc(50% - 50vw)}
.wall.beside{grid-template-columns:1fr 1fr}
.frame{position:relative;display:block;line-height:0}
.frame img{max-width:100%;max-height:88vh;width:auto;height:auto;display:block}
.frame svg{position:absolute;inset:0;width:100%;height:100%;overflow:visible}
.under-wall{font-size:.75rem;color:${GREY.quiet};margin-top:.4rem}
.pin{position:absolute;width:1.5rem;height:1.5rem;margin:-.75rem 0 0 -.75rem;border:1.5px solid #fff;border-radius:50%;background:#111;color:#fff;font:600 .75rem/1.3125rem "Halflight Text",system-ui,sans-serif;text-align:center}
.pin.ring{border-color:#111;background:none;box-shadow:0 0 0 1.5px #fff,inset 0 0 0 1.5px #fff}
.notes{list-style:none;padding:0;margin-top:1rem}
.notes>li{display:grid;grid-template-columns:minmax(0,1fr) 13rem;gap:.25rem 2.5rem;border-top:1px solid ${GREY.faint};padding:.9rem 0 1.1rem;break-inside:avoid}
.notes .lead{font-weight:600}
.notes .body{margin-top:.25rem}
.said{position:relative;max-width:var(--measure);overflow-wrap:anywhere}
.numbered .said{padding-left:2.25rem}
.label{position:absolute;left:0;top:0;width:1.5rem;height:1.5rem;border-radius:50%;background:${GREY.ink};color:#fff;font-size:.75rem;line-height:1.5rem;font-weight:600;text-align:center}
.margin{font-size:.75rem;line-height:1.45;color:${GREY.quiet};overflow-wrap:anywhere}
.margin svg.place{display:block;max-width:100%;height:auto;margin-bottom:.5rem}
.swatch{display:flex;align-items:center;gap:.5rem;margin-bottom:.25rem}
.swatch svg{flex:none;width:2.25rem;height:1.125rem}
.drawings{display:grid;gap:2rem 2.5rem;margin-top:1.25rem}
.drawings figure{break-inside:avoid}
.drawings h3{font-size:.9375rem;font-weight:600;margin-bottom:.5rem}
.drawings svg{display:block;max-width:100%;height:auto}
.drawings figcaption{font-size:.75rem;line-height:1.45;color:${GREY.quiet};margin-top:.5rem;max-width:28rem}
.drawings.a2{grid-template-columns:repeat(auto-fill,minmax(min(100%,20rem),1fr))}
.drawings.a3{grid-template-columns:repeat(auto-fill,minmax(min(100%,15rem),1fr))}
.drawings.a1 svg{width:100%}
.drawings text,.place text{font-family:"Halflight Text",system-ui,sans-serif}
.bar{display:block;width:100%;height:4rem;margin-top:1rem}
.palette{list-style:none;padding:0;margin-top:1rem;display:grid;grid-template-columns:repeat(auto-fill,minmax(10.5rem,1fr));gap:1rem 1.25rem}
.palette li{display:flex;gap:.65rem;font-size:.75rem;line-height:1.45;color:${GREY.quiet};break-inside:avoid}
.palette svg{flex:none;width:2.25rem;height:2.25rem}
.palette strong{display:block;color:${GREY.ink};font-weight:600}
.numbers{columns:2;column-gap:2.5rem;break-inside:avoid;margin-top:.75rem;font-size:.75rem;line-height:1.45}
.numbers div{display:flex;justify-content:space-between;gap:1rem;padding:.15rem 0;break-inside:avoid}
.numbers dt{color:${GREY.quiet}}
.numbers dd{text-align:right;white-space:nowrap}
.cards{list-style:none;padding:0;margin-top:1.25rem;display:grid;grid-template-columns:repeat(auto-fill,minmax(11.5rem,1fr));gap:1.75rem 1.25rem}
.cards li{break-inside:avoid;overflow-wrap:anywhere}
.cards .hung{display:flex;align-items:center;justify-content:center;background:${GREY.wall};aspect-ratio:4/3;padding:.6rem}
.cards .hung svg{display:block;max-width:100%;max-height:100%}
.cards h3{font-size:.9375rem;font-weight:600;margin-top:.5rem}
.cards p{font-size:.75rem;line-height:1.45;color:${GREY.quiet};margin-top:.2rem}
a{color:inherit;text-underline-offset:.15em}
a:focus-visible{outline:2px solid ${GREY.ink};outline-offset:3px}
footer{font-size:.75rem;line-height:1.45;color:${GREY.quiet};padding-top:3rem;padding-bottom:3rem}
footer p{border-top:1px solid ${GREY.faint};padding-top:.75rem;max-width:100%}
.store{position:absolute;width:0;height:0}
@media (max-width:44rem){.notes>li{grid-template-columns:minmax(0,1fr)}.margin{margin-top:.5rem;max-width:16rem}.numbered .margin{margin-left:2.25rem}.numbers{columns:1}}
@page{size:A4;margin:14mm}
@media print{body{background:#fff;font-size:10.5pt;-webkit-print-color-adjust:exact;print-color-adjust:exact}main,header,footer{max-width:none;padding-left:0;padding-right:0}header{padding-top:0}.wall.bleed{margin-left:0;margin-right:0}.frame img{max-height:103mm}.wall.alone .frame img{max-height:200mm}.notes>li{grid-template-columns:minmax(0,1fr) 48mm}footer{padding-bottom:0}.cards{grid-template-columns:repeat(auto-fill,minmax(32mm,1fr))}a{text-decoration:none}}
`.trim();
