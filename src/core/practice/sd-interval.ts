import jstat from 'jstat';

/**
 * Between which multiples of a standard deviation the true one lies, 95 %, by chi-square: with few placings far apart.
 * @param degrees degrees of freedom, from 1
 */
export function sdInterval(degrees: number): readonly [number, number] {
  return [
    Math.sqrt(degrees / jstat.chisquare.inv(0.975, degrees)),
    Math.sqrt(degrees / jstat.chisquare.inv(0.025, degrees)),
  ];
}
