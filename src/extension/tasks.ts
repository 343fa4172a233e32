/** Offers the checks as tasks of the editor, whose findings the problem matcher of package.json reads. */
import {
  ShellExecution,
  Task,
  TaskGroup,
  tasks,
  TaskScope,
  workspace,
  type Disposable,
  type WorkspaceFolder,
} from 'vscode';
import { checkWords, OFFERED, TASK_TYPE, type CheckTask } from './checkTasks.js';

/** Where processes can be started; a browser has none. */
export function offerTasks(): Disposable {
  return tasks.registerTaskProvider(TASK_TYPE, {
    provideTasks: () =>
      (workspace.workspaceFolders ?? []).flatMap((folder) =>
        OFFERED.map(({ name, task }) => taskOf(task, name, folder)),
      ),
    // The same definition has to come back, or the editor does not know its task again.
    resolveTask: ({ definition, name, scope }) =>
      taskOf(definition, name, typeof scope === 'object' ? scope : undefined),
  });
}

function taskOf(definition: CheckTask, name: string, folder: WorkspaceFolder | undefined): Task {
  const program = workspace.getConfiguration('wireloft', folder).get<string>('program') ?? 'wireloft';
  const task = new Task(
    definition,
    folder ?? TaskScope.Workspace,
    name,
    'wireloft',
    new ShellExecution(program, checkWords(definition), folder ? { cwd: folder.uri.fsPath } : {}),
    '$wireloft',
  );
  task.group = TaskGroup.Build;
  return task;
}
