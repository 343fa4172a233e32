/**
 * IP codes (IEC 60529). The first digit is for solids, the second for water, X where it is not tested. A code for immersion
 * (7, 8) does not cover jets (5, 6), and covers what lies below them.
 */

export interface IpCode {
  readonly solids: number | undefined;
  readonly water: number | undefined;
}

/** Read a code such as `IPX6` or `IP67`; undefined where it is none. */
export function readIpCode(text: string): IpCode | undefined {
  const found = /^IP([0-6X])([0-9X])/u.exec(text.toUpperCase());
  if (found === null) return undefined;
  const digit = (value: string | undefined): number | undefined =>
    value === undefined || value === 'X' ? undefined : Number(value);
  return { solids: digit(found[1]), water: digit(found[2]) };
}

/** How declared codes stand to one that is asked. `immersion-only`: tight under water, and not known to be against jets. */
export type Tightness = 'enough' | 'less' | 'immersion-only' | 'unstated';

/** Compare what a device declares with one code that its place asks. */
export function compareIp(declared: readonly IpCode[], asked: IpCode): Tightness {
  const solids =
    asked.solids === undefined || asked.solids === 0 ? 'enough' : compareSolids(declared, asked.solids);
  const water =
    asked.water === undefined || asked.water === 0 ? 'enough' : compareWater(declared, asked.water);
  for (const worst of ['less', 'immersion-only', 'unstated'] as const)
    if (solids === worst || water === worst) return worst;
  return 'enough';
}

function compareSolids(declared: readonly IpCode[], asked: number): Tightness {
  const digits = declared.flatMap((code) => code.solids ?? []);
  // What keeps splashes from every side out has no opening for a finger (12.5 mm): common practice, no source.
  if (digits.length === 0 && asked <= 2 && declared.some((code) => (code.water ?? 0) >= 4)) return 'enough';
  if (digits.length === 0) return 'unstated';
  return digits.some((digit) => digit >= asked) ? 'enough' : 'less';
}

function compareWater(declared: readonly IpCode[], asked: number): Tightness {
  const digits = declared.flatMap((code) => code.water ?? []);
  if (digits.length === 0) return 'unstated';
  if (digits.some((digit) => covers(digit, asked))) return 'enough';
  const jets = asked === 5 || asked === 6;
  return jets && digits.some((digit) => digit === 7 || digit === 8) ? 'immersion-only' : 'less';
}

function covers(digit: number, asked: number): boolean {
  if (asked >= 7) return digit >= asked && digit <= 8;
  if (asked >= 5) return (digit >= asked && digit <= 6) || digit === 9;
  return digit >= asked;
}
