import { framesInCache, type PointAverages, PointSums } from '../src/core/c3d/average-points.ts';
import { openTrialFile } from '../src/node/trial-on-disk.ts';

/** Every point of a trial averaged over its valid frames, the trial read from disk a buffer at a time. */
export function averageFromDisk(path: string): PointAverages {
  const trial = openTrialFile(path);
  try {
    const { pointCount } = trial.description;
    const sums = new PointSums(pointCount);
    trial.forEachStridedBlock(framesInCache(pointCount), (values, stride, _first, count) => {
      sums.add(values, stride, count);
    });
    return sums.averages();
  } finally {
    trial.close();
  }
}
