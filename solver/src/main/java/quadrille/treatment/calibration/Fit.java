package quadrille.treatment.calibration;

import java.util.List;
import java.util.SortedMap;

/**
 * What the recorded visits say.
 *
 * @param multipliers of each time, in their order
 * @param clinicians each clinician's speed as a multiple of the practice's; 1 where there is one
 *     only
 * @param spread sigma of the working seconds, in logs
 * @param bookingSpread the same with what else varies put on the work too, as plans book
 * @param outlierChance of each visit: that something outside the work stretched or cut it
 * @param covariance of the multipliers, then the clinicians
 */
record Fit(
    List<Estimate> multipliers,
    SortedMap<String, Estimate> clinicians,
    Estimate spread,
    Estimate bookingSpread,
    double[] outlierChance,
    double[][] covariance) {

  /** The share of repeated practices whose true value an interval shall hold. */
  static final double CERTAINTY = 0.9;

  /** A visit at or above this is listed as an outlier. */
  static final double OUTLIER = 0.5;

  /** The multipliers alone. */
  double[] values() {
    return multipliers.stream().mapToDouble(Estimate::value).toArray();
  }

  /** How far two multipliers were told apart: near -1 where records know their sum alone. */
  double correlation(int one, int other) {
    return covariance[one][other]
        / Math.sqrt(Math.max(1e-12, covariance[one][one] * covariance[other][other]));
  }

  /** Whether a visit is listed as an outlier. */
  boolean outlier(int visit) {
    return outlierChance[visit] >= OUTLIER;
  }
}
