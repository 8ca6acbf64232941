package quadrille.seeking;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;

/**
 * Lets someone outside end searches early; they keep the best that they have found. When it is
 * asked for is decided outside, so the library itself needs no clock. One that is never asked
 * changes nothing. Safe for use by several threads.
 */
public final class SearchStop {
  private final List<Thread> searching = new ArrayList<>();
  private boolean asked;

  /**
   * Asks all searches, those to come as well, to end with what they have; more than once is once.
   */
  public synchronized void ask() {
    asked = true;
    searching.forEach(Thread::interrupt);
  }

  /** Whether searches have been asked to end. */
  public synchronized boolean asked() {
    return asked;
  }

  /**
   * Runs a search on this thread, which is interrupted where it has to end early. The interrupt is
   * taken back afterwards.
   *
   * @param search ends soon after its thread is interrupted
   * @param unsought what to answer where the end was asked for before the search began
   */
  public <T> T during(Supplier<T> search, Supplier<T> unsought) {
    if (!begin()) {
      return unsought.get();
    }
    try {
      return search.get();
    } finally {
      end();
    }
  }

  private synchronized boolean begin() {
    if (!asked) {
      searching.add(Thread.currentThread());
    }
    return !asked;
  }

  /** Under the same lock as the asking, so that no interrupt arrives once the search is over. */
  private synchronized void end() {
    searching.remove(Thread.currentThread());
    if (asked) {
      Thread.interrupted();
    }
  }
}
