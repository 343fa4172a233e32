/** The checks that the analysis of a vessel runs, in the order in which they report. */
import { notMet } from './needs/rules/notMet.js';
import { notVisible } from './needs/rules/notVisible.js';
import type { Rule } from './rule.js';

export const CHECKS: readonly Rule[] = [notMet, notVisible];
