/** All of the program but its process. It is a bundle of its own, which main.ts loads. */
import '../language/polyfill.js';

export { run } from './run.js';
