/** The sheet in its window: pushed and enlarged by mouse, touchpad and keyboard. */
import { fit, onSheet, pan, pushInto, zoomAt, type Size, type View } from '../drawing/view.js';

/** What happens on the stage. */
export interface StageEvents {
  /** Clicked on, and where on the sheet, in mm. */
  readonly picked: (target: Element, x: number, y: number) => void;
  /** `view` undefined: fitted to the window. */
  readonly moved: (view: View | undefined) => void;
}

/** A pointer that goes further than this pushes the sheet. */
const STILL = 4;
const STEP = 60;
/** Room that is left about what is brought into sight. */
const EDGE = 16;
const FACTOR = 1.25;

export class Stage {
  private sheet: Size = { width: 1, height: 1 };
  private picture: SVGSVGElement | undefined;
  private view: View | undefined;

  constructor(
    private readonly element: HTMLElement,
    private readonly events: StageEvents,
  ) {
    element.addEventListener('wheel', (event) => this.wheel(event), { passive: false });
    element.addEventListener('pointerdown', (event) => this.press(event));
    element.addEventListener('keydown', (event) => this.key(event));
    new ResizeObserver(() => this.lay()).observe(element);
  }

  /** Shows a picture, lying as it did before. */
  show(picture: SVGSVGElement, sheet: Size, view: View | undefined): void {
    this.picture = picture;
    this.sheet = sheet;
    this.view = view;
    this.element.replaceChildren(picture);
    this.lay();
  }

  /** Shows something else than a sheet. */
  clear(...instead: readonly Element[]): void {
    this.picture = undefined;
    const empty = document.createElement('div');
    empty.id = 'empty';
    empty.replaceChildren(...instead);
    this.element.replaceChildren(empty);
  }

  /** Pushes the sheet no further than it takes to see an element of it. */
  reveal(element: Element): void {
    const [box, room] = [element.getBoundingClientRect(), this.element.getBoundingClientRect()];
    const dx = pushInto(box.left, box.right, room.left + EDGE, room.right - EDGE);
    const dy = pushInto(box.top, box.bottom, room.top + EDGE, room.bottom - EDGE);
    if (dx !== 0 || dy !== 0) this.move(this.pushed(dx, dy));
  }

  zoom(inwards: boolean): void {
    const { width, height } = this.room;
    this.move(zoomAt(this.current, inwards ? FACTOR : 1 / FACTOR, width / 2, height / 2));
  }

  fit(): void {
    this.view = undefined;
    this.events.moved(undefined);
    this.lay();
  }

  private get room(): Size {
    return { width: this.element.clientWidth, height: this.element.clientHeight };
  }

  private get current(): View {
    return this.view ?? fit(this.sheet, this.room);
  }

  private move(view: View): void {
    this.view = pan(view, 0, 0, this.sheet, this.room);
    this.events.moved(this.view);
    this.lay();
  }

  private lay(): void {
    if (this.picture === undefined) return;
    const { scale, x, y } = this.current;
    this.picture.setAttribute('width', String(this.sheet.width * scale));
    this.picture.setAttribute('height', String(this.sheet.height * scale));
    this.picture.style.transform = `translate(${x}px, ${y}px)`;
  }

  private wheel(event: WheelEvent): void {
    event.preventDefault();
    const unit = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 16 : 1;
    const [dx, dy] = [event.deltaX * unit, event.deltaY * unit];
    // A touchpad says that two fingers part in the words of a wheel with the control key.
    if (event.ctrlKey || event.metaKey) {
      const box = this.element.getBoundingClientRect();
      const factor = Math.exp(-Math.max(-100, Math.min(100, dy)) / 200);
      this.move(zoomAt(this.current, factor, event.clientX - box.left, event.clientY - box.top));
    } else if (event.shiftKey && dx === 0) this.move(this.pushed(-dy, 0));
    else this.move(this.pushed(-dx, -dy));
  }

  private pushed(dx: number, dy: number): View {
    return pan(this.current, dx, dy, this.sheet, this.room);
  }

  private press(down: PointerEvent): void {
    if (down.button !== 0 && down.button !== 1) return;
    const start = this.current;
    const { target } = down;
    let still = true;
    const ended = new AbortController();
    const { signal } = ended;
    const move = (event: PointerEvent): void => {
      const [dx, dy] = [event.clientX - down.clientX, event.clientY - down.clientY];
      if (still && Math.hypot(dx, dy) < STILL) return;
      if (still) this.element.setPointerCapture(down.pointerId);
      still = false;
      this.move(pan(start, dx, dy, this.sheet, this.room));
    };
    const up = (event: PointerEvent): void => {
      ended.abort();
      if (!still || down.button !== 0 || !(target instanceof Element)) return;
      const box = this.element.getBoundingClientRect();
      const at = onSheet(this.current, event.clientX - box.left, event.clientY - box.top);
      this.events.picked(target, at.x, at.y);
    };
    this.element.addEventListener('pointermove', move, { signal });
    this.element.addEventListener('pointerup', up, { signal });
    this.element.addEventListener('pointercancel', () => ended.abort(), { signal });
  }

  private key(event: KeyboardEvent): void {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const act: Readonly<Record<string, () => void>> = {
      ArrowLeft: () => this.move(this.pushed(STEP, 0)),
      ArrowRight: () => this.move(this.pushed(-STEP, 0)),
      ArrowUp: () => this.move(this.pushed(0, STEP)),
      ArrowDown: () => this.move(this.pushed(0, -STEP)),
      '+': () => this.zoom(true),
      '=': () => this.zoom(true),
      '-': () => this.zoom(false),
      '0': () => this.fit(),
    };
    const own = Object.hasOwn(act, event.key) ? act[event.key] : undefined;
    if (own === undefined) return;
    event.preventDefault();
    own();
  }
}
