/** The pictures of README.md and docs/drawings.md that the tool draws itself. A4, so that what is written can be read as wide as a page shows them. */

const drawing = ['--format', 'png', '--paper', 'A4', '--dpi', '90', '--revision', 'A'];

/** `page`: the file of the set that is shown. `words`: what is asked of the program, in the project's folder. */
export const pictures = [
  {
    image: 'network.png',
    page: 'network-1.png',
    words: ['draw', 'examples/openboat/dunlin.loft', '--sheet', 'network', ...drawing],
  },
  {
    image: 'bus.png',
    page: 'bus-1.png',
    words: ['draw', 'examples/kittiwake/kittiwake.loft', '--sheet', 'bus', ...drawing],
  },
  {
    image: 'power.png',
    page: 'power-1.png',
    words: ['draw', 'examples/kittiwake/kittiwake.loft', '--sheet', 'power', ...drawing],
  },
  {
    image: 'plan.png',
    page: 'plan-1.png',
    words: ['draw', 'examples/openboat/dunlin.loft', '--sheet', 'plan', ...drawing],
  },
];
