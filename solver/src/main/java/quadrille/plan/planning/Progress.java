package quadrille.plan.planning;

import org.jspecify.annotations.Nullable;

/** Hears how a search goes on, from the threads that seek, one call at a time. */
@FunctionalInterface
public interface Progress {

  /** Hears nothing. */
  Progress UNHEARD = (tried, of, bestSeconds) -> {};

  /**
   * One more course has been sought.
   *
   * @param tried how many courses have been sought, each of its own number of visits or conditions
   * @param of how many there are to seek at the most
   * @param bestSeconds the lowest cost of those that keep every hard rule; null while none does
   */
  void tried(int tried, int of, @Nullable Long bestSeconds);
}
