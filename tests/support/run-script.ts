/** Runs a TypeScript script of the tests in a process of its own. */
import { type ChildProcess, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** Starts `path` (from the project's folder) with pipes to its input and output. */
export function startScript(path: string, args: readonly string[] = []): ChildProcess {
  const root = fileURLToPath(new URL('../..', import.meta.url));
  return spawn(process.execPath, ['--import', 'tsx', path, ...args], { cwd: root, stdio: ['pipe', 'pipe', 'inherit'] });
}

/** What a script wrote, and how it ended, once its output is closed. */
export async function endOf(child: ChildProcess): Promise<{ output: string; code: number | null }> {
  let output = '';
  child.stdout?.setEncoding('utf8').on('data', (text: string) => {
    output += text;
  });
  const code = await new Promise<number | null>((resolve, reject) => {
    child.once('error', reject);
    child.once('close', resolve);
  });
  return { output, code };
}
