/**
 * Loaded with `node --import` before the grammar generator: its parser library calls `Object.groupBy`, which
 * Node.js 20 lacks. The program itself gets the same from src/language/polyfill.ts.
 */
import 'core-js/es/object/group-by.js';
