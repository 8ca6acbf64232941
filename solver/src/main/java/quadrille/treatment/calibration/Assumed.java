package quadrille.treatment.calibration;

/**
 * What is assumed before any visit is recorded. A multiplier is normal around 1; those of the
 * clinician's own work share a part of their spread, since a slow hand is slow everywhere.
 *
 * @param sharedSd standard deviation that all work by hand shares
 * @param ownSd standard deviation of each multiplier of work by hand beside what is shared
 * @param otherSd standard deviation of a multiplier of other work (the room, injections)
 * @param clinicianSd standard deviation of a clinician's speed around the practice's
 * @param sigma the practice file's spread of a visit's working seconds, in logs
 * @param fixedShare standard deviation of time beside the work, as a share of it
 * @param sigmaWeight how many timed stretches that spread is worth
 * @param visitShare share of the variance that a visit's stretches have in common; 0 to 1
 * @param outliers share of visits that something outside the work stretched or cut
 * @param outlierFactor how many times wider those spread
 * @param clockSeconds standard deviation of a duration read from a clock in whole minutes
 */
record Assumed(
    double sharedSd,
    double ownSd,
    double otherSd,
    double clinicianSd,
    double sigma,
    double fixedShare,
    double sigmaWeight,
    double visitShare,
    double outliers,
    double outlierFactor,
    double clockSeconds) {

  /**
   * Every figure but the spread is an assumption. Practices are taken to lie within a factor of 0.4
   * to 1.6 of the file in nine of ten cases, clinicians of one practice within 0.75 to 1.25. The
   * clock: a start and an end, each rounded to a whole minute, and so off by up to 30 s, evenly.
   */
  static Assumed standard(double sigma) {
    return new Assumed(
        0.25, 0.25, 0.35, 0.15, sigma, 0.2, 12, 0.7, 0.02, 4, 60 * Math.sqrt(2.0 / 12));
  }
}
