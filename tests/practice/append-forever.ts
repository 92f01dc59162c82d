// For a test that ends this process in the middle of its writing.
import { appendHistory } from '../../src/practice/history-file.ts';

const [path = ''] = process.argv.slice(2);
process.stdout.write('writing\n');
for (let day = 0; ; day++) {
  appendHistory(path, {
    kind: 'withdrawal',
    trainee: `T${day}`,
    signer: 'CD',
    landmark: 'HEEL',
    on: '2026-11-25',
    reason: 'x'.repeat(180),
  });
}
