package quadrille.plan.planning;

import org.jspecify.annotations.Nullable;

/** Counts the courses that are sought side by side, and tells of each. */
public final class Telling {
  private final Progress progress;
  private final int all;
  private int tried;
  private @Nullable Long best;

  /**
   * @param all how many courses there are to seek at the most
   */
  public Telling(Progress progress, int all) {
    this.progress = progress;
    this.all = all;
  }

  /**
   * One more has been sought; from any thread.
   *
   * @param seconds its cost; null where it breaks a hard rule
   */
  public synchronized void tried(@Nullable Long seconds) {
    tried++;
    if (seconds != null && (best == null || seconds < best)) {
      best = seconds;
    }
    progress.tried(tried, all, best);
  }
}
