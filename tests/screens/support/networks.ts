/** Machines with networks of their own, made by a test: each has an address at one switch, and reaches nothing else. */
import { type ChildProcess, execFileSync, type SpawnOptions, spawn, spawnSync } from 'node:child_process';
import { existsSync, readlinkSync, writeFileSync } from 'node:fs';
import { setTimeout as sleep } from 'node:timers/promises';

export interface Machine {
  readonly name: string;
  /** Runs a program there. */
  run(command: string, args: readonly string[], options?: SpawnOptions): ChildProcess;
  /** A program that runs another one there, for who starts programs by their path alone. */
  shim(file: string, program: string): string;
  /** Gives it an address of the switch, or takes it away; what the router's list of addresses does. */
  address(address: string, has: boolean): void;
}

export interface Networks {
  /** `loopback` where this machine may make no namespaces: then all are one machine, and addresses of 127.0.0.0/8 stand for them. */
  readonly kind: 'namespaces' | 'loopback';
  readonly why: string;
  /** The address of the nth machine. */
  at(n: number): string;
  machine(name: string): Promise<Machine>;
  end(): void;
}

const children = new Set<ChildProcess>();
process.once('exit', end);

/** The programs of all machines, with what those started. */
function end(): void {
  for (const child of children) {
    try {
      // One that leads a group takes it along.
      process.kill(-(child.pid ?? 0), 'SIGKILL');
    } catch {
      child.kill('SIGKILL');
    }
  }
}

const started = (child: ChildProcess): ChildProcess => {
  children.add(child);
  child.once('exit', () => children.delete(child));
  return child;
};

const SLEEP = ['sleep', '100000'];
const inside = (pid: number) => ['-t', String(pid), '-U', '-n', '--preserve-credentials'];
const netOf = (pid: number) => (existsSync(`/proc/${pid}/ns/net`) ? readlinkSync(`/proc/${pid}/ns/net`) : '');

/** Waits until the process stands in a network of its own, which is a moment behind its start. */
async function apart(child: ChildProcess, from: readonly number[]): Promise<number> {
  for (let tries = 0; tries < 500; tries += 1) {
    const net = netOf(child.pid ?? 0);
    if (child.exitCode === null && net !== '' && !from.map(netOf).includes(net)) return child.pid ?? 0;
    await sleep(10);
  }
  throw new Error('A network namespace was not made.');
}

/** Makes the switch in a user namespace, which asks for no rights but those a user mostly has. */
export async function makeNetworks(): Promise<Networks> {
  const tried = spawnSync('unshare', ['-Urn', 'ip', 'link', 'add', 'hall', 'type', 'bridge'], { encoding: 'utf8' });
  if (tried.status !== 0) return loopback(tried.error?.message ?? tried.stderr.trim());
  const hold = started(spawn('unshare', ['-Urn', ...SLEEP]));
  const hub = await apart(hold, [process.pid]);
  const ip = (pid: number, ...words: string[]) => execFileSync('nsenter', [...inside(pid), 'ip', ...words]);
  ip(hub, 'link', 'add', 'hall', 'type', 'bridge');
  ip(hub, 'link', 'set', 'hall', 'up');
  const pids: number[] = [];
  let made = 0;
  return {
    ...{ kind: 'namespaces', why: '', at: (n) => `192.168.77.${n}` },
    async machine(name) {
      made += 1;
      const port = `port${made}`;
      const pid = await apart(started(spawn('nsenter', [...inside(hub), 'unshare', '-n', ...SLEEP])), [
        process.pid,
        hub,
      ]);
      pids.push(pid);
      ip(hub, 'link', 'add', port, 'type', 'veth', 'peer', 'name', 'eth0', 'netns', String(pid));
      ip(hub, 'link', 'set', port, 'master', 'hall', 'up');
      ip(pid, 'link', 'set', 'lo', 'up');
      ip(pid, 'link', 'set', 'eth0', 'up');
      return {
        name,
        run: (command, args, options = {}) => started(spawn('nsenter', [...inside(pid), command, ...args], options)),
        shim: (file, program) => {
          writeFileSync(file, `#!/bin/sh\nexec nsenter ${inside(pid).join(' ')} ${program} "$@"\n`, { mode: 0o755 });
          return file;
        },
        address(address, has) {
          ip(pid, 'addr', has ? 'add' : 'del', `${address}/24`, 'dev', 'eth0');
          if (!has) return;
          // As if it announced its new address (RFC 5227, 2.3): nobody goes on asking the one that had it.
          for (const other of pids) ip(other, 'neigh', 'flush', 'to', address);
        },
      };
    },
    end,
  };
}

function loopback(why: string): Networks {
  return {
    ...{ kind: 'loopback', why, at: (n) => `127.77.0.${n}` },
    machine: async (name) => ({
      name,
      run: (command, args, options = {}) => started(spawn(command, args, options)),
      shim: (_, program) => program,
      address: () => undefined,
    }),
    end,
  };
}
