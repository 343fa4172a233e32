import { rule } from '../../rule.js';
import { collectUses, isOfTheBoat } from '../uses.js';

/** `unused/cable`: a cable that the boat's own files declare, and nothing uses. Catalogues are shared: theirs may lie unused. */
export const unusedCable = rule(
  {
    code: 'unused/cable',
    severities: ['information'],
    summary: "A cable of the boat's own files is used by nothing.",
  },
  ({ vessel }, report) => {
    const own = Object.values(vessel.cables).filter((one) => isOfTheBoat(one.origin));
    if (own.length === 0) return;
    const uses = collectUses(vessel);
    for (const one of own) {
      if (uses.cables.has(one.name)) continue;
      const at = { origin: one.origin };
      report.find({
        message: `cable ${one.name} is declared, and nothing aboard uses it. Use it, move it to a catalogue, or remove it.`,
        at,
        repairs: [{ title: `Remove cable ${one.name}`, preferred: true, change: { kind: 'remove', at } }],
      });
    }
  },
);
