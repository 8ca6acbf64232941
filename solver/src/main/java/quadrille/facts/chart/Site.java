package quadrille.facts.chart;

import org.jspecify.annotations.Nullable;

/**
 * One of the six sites of a tooth.
 *
 * @param depthMm probing depth, whole mm, 0 to 20; null where the deposit kept the site from being
 *     probed
 * @param recessionMm recession, whole mm, -10 (margin above the cement line) to 20
 * @param bleeding whether the site bled on probing
 */
public record Site(@Nullable Integer depthMm, int recessionMm, boolean bleeding) {

  /** A site that was probed and neither bleeds nor is recessed. */
  public static Site ofDepth(int depthMm) {
    return new Site(depthMm, 0, false);
  }
}
