/** Time that this process has spent computing, ms: what else the machine does at the moment does not count. */
export function cpuMilliseconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}
