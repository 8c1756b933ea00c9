import '../offline/guard.ts';
// A worker's first script is evaluated again by WebKit where a later part imports from it, so that all lies behind it.
import './picture/main.ts';
