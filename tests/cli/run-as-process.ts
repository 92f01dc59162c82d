// What bin/setsquare.js does, from the sources: for tests that need a process of their own.
import { run } from '../../src/cli/run.ts';

process.exitCode = await run(process.argv.slice(2), process);
