package quadrille.cli.render;

/**
 * A clock in whole minutes, for people. Moments are rounded, and a length is what lies between two
 * rounded moments, so that lengths always add up to the time at which they end.
 */
public final class WholeMinutes {

  private WholeMinutes() {}

  /** The minute nearest to a moment, a half upwards. */
  public static int at(int second) {
    return (int) Math.round(second / 60.0);
  }

  /** The minutes between two moments; 0 where both fall into one minute. */
  public static int between(int fromSecond, int toSecond) {
    return at(toSecond) - at(fromSecond);
  }

  /** The same in words; what takes any time never reads as none. */
  public static String words(int fromSecond, int toSecond) {
    int minutes = between(fromSecond, toSecond);
    return minutes == 0 && toSecond > fromSecond ? "<1" : Integer.toString(minutes);
  }

  /** A price, which a plan weighs in chair time: minutes with one decimal. */
  public static String price(long seconds) {
    return Words.decimalMinutes(seconds) + "\u00a0min";
  }
}
