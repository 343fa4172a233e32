/** The tasks that the extension offers, as plain data: `wireloft check` on a folder, or on the file in front of the reader. */

/** The kind of task in tasks.json, and in package.json. */
export const TASK_TYPE = 'wireloft';

/** A task as somebody writes it into tasks.json; whatever else stands there is the editor's affair. */
export interface CheckTask {
  readonly type: string;
  /** What to check; the folder itself where it says nothing. */
  readonly path?: unknown;
  /** More options of the program. */
  readonly options?: unknown;
}

export interface Offered {
  readonly name: string;
  readonly task: CheckTask;
}

/** The tasks offered without anybody writing one. */
export const OFFERED: readonly Offered[] = [
  { name: 'check the folder', task: { type: TASK_TYPE } },
  // The editor puts the file in front in place of this when the task is run.
  { name: 'check this file', task: { type: TASK_TYPE, path: '${file}' } },
];

/** The words behind the program's name. */
export function checkWords({ path, options }: CheckTask): string[] {
  const more = Array.isArray(options) ? options.filter((one) => typeof one === 'string') : [];
  return ['check', typeof path === 'string' && path !== '' ? path : '.', ...more];
}
