/** `wireloft suggest`, as it is run. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderWith, wireloft } from './program.js';
import { documented, faults } from './schemas.js';

const CATALOGUE = `family Tern
model One : display { families Tern  screen 8 in  price 900 USD  shows chart, sonar  shares chart, sonar  port net : ethernet }
model Two : display { families Tern  screen 9 in  price 950 USD  shows chart, sonar  shares chart, sonar  bridges ethernet  port 1..2 : ethernet }
model Box : sonar { families Tern  price 700 USD  gives sonar.live  port net : ethernet }
model Hub : switch { price 200 USD  bridges ethernet  port 1..5 : ethernet }
cable Net : ethernet { stock 3 m at 20 USD, 6 m at 30 USD }
`;
const BOAT = `use "goods.loft"

vessel Boat {
  currency USD
  slack    0.5 m
}

zone helm interior
zone bow  interior
run helm -- bow 4 m

device plotter   : One at helm  // the skipper's
device bowScreen : One at bow
device live      : Box at helm
// Where all of it meets.
device hub       : Hub at helm

link plotter   -- hub.1 using Net  // behind the panel
link bowScreen -- hub.2 using Net
link live      -- hub.3 using Net

need plotter, bowScreen show live
`;
const boat = (): string => folderWith({ 'goods.loft': CATALOGUE, 'boat.loft': BOAT });

describe('suggest', () => {
  it('ranks designs, with what each changes and saves', async () => {
    const { status, out } = await wireloft(['suggest', 'boat.loft', '--best', '1'], { folder: boat() });
    expect(status).toBe(0);
    expect(out).toBe(`Boat as written: 2770 USD.

1. 2600 USD, saves 170 USD
   plotter: Two in place of One
   take out hub
   take out the cable plotter -- hub.1
   take out the cable bowScreen -- hub.2
   take out the cable live -- hub.3
   lead plotter.1 -- bowScreen with Net
   lead plotter.2 -- live with Net
   free ethernet ports: none
   bowScreen shows what it has to only while plotter is on
`);
  });

  it('has the shape in JSON that its schema says', async () => {
    const { out } = await wireloft(['suggest', 'boat.loft', '--format', 'json'], { folder: boat() });
    expect(faults(documented('suggest.schema.json'), JSON.parse(out))).toEqual([]);
    expect(JSON.parse(out)).toMatchObject({
      presentCost: 2770,
      designs: [{ rank: 1, cost: 2600, saving: 170 }, { rank: 2 }, { rank: 3 }],
    });
  });

  it('writes a design into the spec, which then is clean, keeps its comments, and has nothing cheaper', async () => {
    const folder = boat();
    await wireloft(['format', 'boat.loft'], { folder });
    expect((await wireloft(['suggest', 'boat.loft', '--apply', '1'], { folder })).status).toBe(0);
    const text = readFileSync(join(folder, 'boat.loft'), 'utf8');
    for (const comment of ["// the skipper's", '// Where all of it meets.', '// behind the panel'])
      expect(text).toContain(comment);
    expect(text).not.toContain('device hub');
    const checked = await wireloft(['check', 'boat.loft', '--max-warnings', '0'], { folder });
    expect(checked.status, checked.out).toBe(0);
    expect((await wireloft(['format', '--check', 'boat.loft'], { folder })).status).toBe(0);
    const again = await wireloft(['suggest', 'boat.loft', '--best', '1'], { folder });
    expect(again.out).toContain('1. 2600 USD, as it is');
  });

  it('is told of by the check that is asked for it, and by no other', async () => {
    const folder = boat();
    expect((await wireloft(['check', 'boat.loft'], { folder })).out).not.toContain('choice/cheaper');
    const { status, out } = await wireloft(['check', 'boat.loft', '--cheaper'], { folder });
    expect(status).toBe(0);
    expect(out).toMatch(
      /^boat\.loft:3:8 information choice\/cheaper: .* which saves 170 USD: plotter: Two in place/m,
    );
    expect(out).toMatch(/bowScreen then shows what it has to only while plotter is on/);
    expect(out).toMatch(/1 information, 0 waived/);
    await wireloft(['suggest', 'boat.loft', '--apply', '1'], { folder });
    const after = await wireloft(['check', 'boat.loft', '--cheaper'], { folder });
    expect(after.out).not.toContain('choice/cheaper');
  });

  it('keeps currencies apart where the vessel states none', async () => {
    const abroad = {
      'goods.loft': CATALOGUE.replace('950 USD', '9 EUR'),
      'boat.loft': BOAT.replace(/currency USD\n/, ''),
    };
    const { out } = await wireloft(['suggest', 'boat.loft', '--best', '1'], { folder: folderWith(abroad) });
    expect(out).toMatch(/^Boat as written: 2770 USD\.\n\n1\. 2770 USD, as it is\n/);
    expect(out).toContain('Without a price, and in no total: Two');
  });

  it('keeps what it is told to', async () => {
    const words = ['suggest', 'boat.loft', '--best', '1', '--keep'];
    const folder = boat();
    expect((await wireloft([...words, 'hub'], { folder })).out).toContain('1. 2770 USD, as it is');
    expect((await wireloft([...words, 'hub--live'], { folder })).out).toContain('1. 2770 USD, as it is');
    const wrong = await wireloft([...words, 'hubb'], { folder });
    expect([wrong.status, wrong.error]).toEqual([2, expect.stringContaining('there is no device "hubb"')]);
  });

  it('says which needs to give up where no design meets them all', async () => {
    const text = BOAT.replace(/device hub.*\n/, '')
      .replace(/link [^]*?\n\n/, 'link plotter -- live using Net\n\n')
      .replace('need plotter, bowScreen show live', 'need plotter show live\nneed bowScreen show live');
    const folder = folderWith({
      'goods.loft': CATALOGUE.replace(/model Two.*\n/, '').replace(/model Hub.*\n/, ''),
      'boat.loft': text,
    });
    const { status, out } = await wireloft(['suggest', 'boat.loft'], { folder });
    expect(status).toBe(1);
    expect(out).toMatch(
      /No design meets every need\.\nWithout this need there would be one:\n {3}\w+ show live/,
    );
  });
});
