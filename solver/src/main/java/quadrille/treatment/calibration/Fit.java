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
 */
record Fit(
    List<Estimate> multipliers,
    SortedMap<String, Estimate> clinicians,
    Estimate spread,
    Estimate bookingSpread,
    double[] outlierChance) {

  /** The share of repeated practices whose true value an interval shall hold. */
  static final double CERTAINTY = 0.9;

  /** A visit at or above this is listed as an outlier. */
  static final double OUTLIER = 0.5;

  /** The multipliers alone. */
  double[] values() {
    return multipliers.stream().mapToDouble(Estimate::value).toArray();
  }

  /** Whether a visit is listed as an outlier. */
  boolean outlier(int visit) {
    return outlierChance[visit] >= OUTLIER;
  }
}
