// Prints the largest resident size of this process in KB, after averaging the trial that is named, if one is.
import { readFileSync } from 'node:fs';
import { averageFromDisk } from './average-from-disk.ts';

const [trial] = process.argv.slice(2);
if (trial !== undefined) averageFromDisk(trial);
process.stdout.write(String(peakKilobytes()));

/** On Linux maxRSS begins with what the process that started this one had; the high-water mark of its own does not. */
function peakKilobytes(): number {
  if (process.platform !== 'linux') return process.resourceUsage().maxRSS;
  return Number(/^VmHWM:\s*(\d+) kB$/m.exec(readFileSync('/proc/self/status', 'utf8'))![1]);
}
