/** What deals out the work, each started on this computer as two of its kind: their hosts, and how one of them dies. */
import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { setTimeout as wait } from 'node:timers/promises';
import { type ClusterShop, pathWith } from './shop.js';

export interface Engine {
  readonly name: string;
  /** How its command in the README begins. */
  readonly command: string;
  readonly env: Readonly<Record<string, string>>;
  /** Takes one of its two computers away, with all that runs there. */
  readonly killOne: () => void;
  readonly stop: () => void;
}

/** Programs that the engines take; those that this computer lacks. */
export const missingPrograms = (): string[] =>
  ['parallel', 'ssh', '/usr/sbin/sshd', 'sbatch', 'slurmctld', 'slurmd', 'munged'].filter(
    (program) => !isThere(program),
  );

function isThere(program: string): boolean {
  try {
    execFileSync('bash', ['-c', `PATH=${pathWith('')} command -v ${program}`], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}

const shell = (command: string): void => {
  execFileSync('bash', ['-c', command], { stdio: 'ignore' });
};

function end(pid: number): void {
  try {
    process.kill(pid, 'SIGKILL');
  } catch {
    // It has ended by itself.
  }
}

/** Ends a process with the others of its group. */
const endGroup = ({ pid }: ChildProcess): void => {
  if (pid !== undefined) end(-pid);
};

/** All processes that a process started, and those that they started: a session over ssh is a group of its own. */
function descendantsOf(pid: number | undefined): number[] {
  const listed = execFileSync('ps', ['-eo', 'pid=,ppid='], { encoding: 'utf8' });
  const pairs = listed
    .trim()
    .split('\n')
    .map((line) => line.trim().split(/\s+/).map(Number));
  const under = (parent: number | undefined): number[] =>
    pairs.filter(([, of]) => of === parent).flatMap(([child]) => [child, ...under(child)]);
  return under(pid);
}

/** Two ssh servers on two addresses of this computer, each with its own key and its own processes. */
export async function overSsh({ at }: ClusterShop): Promise<Engine> {
  for (const folder of ['ssh', '../home']) mkdirSync(at(folder));
  mkdirSync('/run/sshd', { recursive: true });
  shell(`ssh-keygen -q -t ed25519 -N '' -f ${at('ssh/user')}`);
  const hosts = ['one', 'two'].map((name, i) => ({ name, address: `127.0.0.${i + 2}`, port: 22_022 + i }));
  const servers = hosts.map(({ name, address, port }) => {
    shell(`ssh-keygen -q -t ed25519 -N '' -f ${at(`ssh/${name}`)}`);
    const settings = [
      `ListenAddress ${address}`,
      `Port ${port}`,
      `HostKey ${at(`ssh/${name}`)}`,
      `AuthorizedKeysFile ${at('ssh/user.pub')}`,
      'PidFile none',
      'StrictModes no',
      'PermitRootLogin yes',
      'UsePAM no',
      'MaxStartups 100',
      'MaxSessions 100',
      `SetEnv PATH=${pathWith(at('.'))}`,
    ];
    writeFileSync(at(`ssh/${name}.conf`), `${settings.join('\n')}\n`);
    return spawn('/usr/sbin/sshd', ['-D', '-f', at(`ssh/${name}.conf`)], { detached: true, stdio: 'ignore' });
  });
  const known = hosts.flatMap(({ name, address, port }) => [
    `Host ${name}`,
    `  HostName ${address}`,
    `  Port ${port}`,
    `  IdentityFile ${at('ssh/user')}`,
    '  StrictHostKeyChecking no',
    '  UserKnownHostsFile /dev/null',
    '  LogLevel ERROR',
  ]);
  writeFileSync(at('ssh/config'), `${known.join('\n')}\n`);
  writeFileSync(at('hosts'), hosts.map(({ name }) => `1/ssh -F ${at('ssh/config')} ${name}\n`).join(''));
  await wait(500);
  return {
    name: 'GNU parallel over ssh',
    command: 'parallel',
    // The folder must not lie in what parallel takes for the home of the user.
    env: { HOME: at('../home') },
    killOne: () => {
      const sessions = descendantsOf(servers[1].pid);
      endGroup(servers[1]);
      for (const pid of sessions) end(pid);
    },
    stop: () => servers.forEach(endGroup),
  };
}

/** A Slurm of its own, with two nodes on this computer. */
export async function underSlurm({ at }: ClusterShop): Promise<Engine> {
  for (const folder of ['munge', 'state', 'one', 'two'])
    mkdirSync(at(`slurm/${folder}`), { recursive: true });
  const munge = (name: string): string => at(`slurm/munge/${name}`);
  shell(`head -c 1024 /dev/urandom > ${munge('key')} && chmod 600 ${munge('key')}`);
  const nodes = ['one', 'two'].map(
    (name, i) =>
      `NodeName=${name} NodeHostname=${hostname()} NodeAddr=127.0.0.1 Port=${17_001 + i} CPUs=1 State=UNKNOWN`,
  );
  const settings = [
    'ClusterName=trial',
    `SlurmctldHost=${hostname()}(127.0.0.1)`,
    'SlurmctldPort=17000',
    `SlurmctldPidFile=${at('slurm/ctld.pid')}`,
    `SlurmctldLogFile=${at('slurm/ctld.log')}`,
    `StateSaveLocation=${at('slurm/state')}`,
    'SlurmUser=root',
    'SlurmdUser=root',
    `SlurmdSpoolDir=${at('slurm/%n')}`,
    `SlurmdPidFile=${at('slurm/%n.pid')}`,
    `SlurmdLogFile=${at('slurm/%n.log')}`,
    `AuthInfo=socket=${munge('socket')}`,
    'ProctrackType=proctrack/linuxproc',
    'TaskPlugin=task/none',
    'SelectType=select/cons_tres',
    'SelectTypeParameters=CR_CPU',
    'ReturnToService=2',
    'SlurmdTimeout=5',
    ...nodes,
    'PartitionName=all Nodes=ALL Default=YES MaxTime=INFINITE State=UP',
  ];
  writeFileSync(at('slurm/slurm.conf'), `${settings.join('\n')}\n`);
  const conf = at('slurm/slurm.conf');
  const start = (program: string, ...args: string[]): ChildProcess =>
    spawn(program, args, {
      detached: true,
      stdio: 'ignore',
      env: { ...process.env, PATH: pathWith(at('.')), SLURM_CONF: conf },
    });
  const keys = ['key', 'socket', 'pid', 'log', 'seed'].map((name) => munge(name));
  const daemons = [
    start(
      'munged',
      ...['--foreground', '--force', `--key-file=${keys[0]}`, `--socket=${keys[1]}`],
      ...[`--pid-file=${keys[2]}`, `--log-file=${keys[3]}`, `--seed-file=${keys[4]}`],
    ),
  ];
  while (!existsSync(munge('socket'))) await wait(100);
  daemons.push(start('slurmctld', '-D', '-c', '-f', conf));
  await wait(2000);
  const [, two] = ['one', 'two'].map((name) => {
    const node = start('slurmd', '-D', '-f', conf, '-N', name);
    daemons.push(node);
    return node;
  });
  await wait(3000);
  return {
    name: 'Slurm',
    command: 'sbatch',
    env: { SLURM_CONF: conf },
    killOne: () => {
      shell('pkill -KILL slurmstepd || true');
      endGroup(two);
    },
    stop: () => daemons.toReversed().forEach(endGroup),
  };
}
