/**
 * The parser library calls `Object.groupBy`, which Node.js 20 lacks. Every entry point imports this file
 * before anything that imports Langium.
 */
import 'core-js/es/object/group-by.js';
