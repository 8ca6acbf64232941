package quadrille.treatment.calibration;

/**
 * Whether visits ended in the time they were booked for.
 *
 * @param visits recorded from set-up to close and not interrupted
 * @param inTime of those, ended within the booked minutes with all planned work done
 * @param low lower end of the 90 % interval (Clopper and Pearson) of the share
 * @param high upper end of it
 * @param certainty what the practice promises at least, on average over the visits
 * @param promised what the plans themselves promised for the minutes booked, on average
 * @param chanceOfFewer the chance of so few or fewer, were those promises true
 * @param chanceOfMore the chance of so many or more, were they true
 * @param calibrated what the calibrated times would have promised for the same minutes, on average
 * @param rebooked what booking by calibrated times would have come to; none of it below five visits
 */
public record Forecast(
    int visits,
    int inTime,
    double low,
    double high,
    double certainty,
    double promised,
    double chanceOfFewer,
    double chanceOfMore,
    double calibrated,
    Rebooked rebooked) {

  /** Chance allows what happens this often on each side. */
  public static final double CHANCE = 0.025;

  /**
   * The same visits booked by calibrated times, each by times that were learned without it.
   *
   * @param visits how many; 0 where too few are recorded
   * @param inTime of those, that would have ended in time
   * @param minutesBefore booked minutes on average, as they were
   * @param minutesNow booked minutes on average, by the calibrated times
   */
  public record Rebooked(int visits, int inTime, double minutesBefore, double minutesNow) {}

  /** The share that ended in time; 0 of none. */
  public double share() {
    return visits == 0 ? 0 : (double) inTime / visits;
  }

  /** Whether fewer visits ended in time than chance allows. */
  public boolean fewerThanPromised() {
    return visits > 0 && chanceOfFewer < CHANCE;
  }

  /** Whether more visits ended in time than chance allows, so that they are booked too long. */
  public boolean moreThanPromised() {
    return visits > 0 && chanceOfMore < CHANCE;
  }
}
