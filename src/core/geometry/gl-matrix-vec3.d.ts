/**
 * The module of gl-matrix that holds its three-dimensional vectors, with what is used of it. Imported by itself, a bundle
 * takes these functions and no others; through the package's index it takes all of them.
 */
declare module 'gl-matrix/esm/vec3.js' {
  import type { vec3 } from 'gl-matrix';

  export const add: typeof vec3.add;
  export const cross: typeof vec3.cross;
  export const dot: typeof vec3.dot;
  export const lerp: typeof vec3.lerp;
  export const scale: typeof vec3.scale;
  export const scaleAndAdd: typeof vec3.scaleAndAdd;
  export const subtract: typeof vec3.subtract;
}
