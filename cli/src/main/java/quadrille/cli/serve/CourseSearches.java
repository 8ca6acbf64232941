package quadrille.cli.serve;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import quadrille.plan.work.UnworkableException;
import quadrille.seeking.SearchStop;

/**
 * Searches for the courses of mouths, on few threads. Each is kept until its mouth is asked about
 * otherwise, which ends those that still run, and answers with the best that it has once its time
 * is up.
 */
final class CourseSearches implements AutoCloseable {

  /** One search ends after so long. */
  static final int SECONDS = 60;

  /** Mouths whose courses are kept at hand; the rest is sought again when it is asked for. */
  private static final int KEPT = 20;

  /** Answers kept of one mouth: six numbers of visits, and what was tried of them. */
  private static final int ANSWERS = 60;

  private final ExecutorService threads =
      Executors.newFixedThreadPool(
          Math.max(2, Runtime.getRuntime().availableProcessors()), CourseSearches::daemon);
  private final ScheduledExecutorService clock =
      Executors.newSingleThreadScheduledExecutor(CourseSearches::daemon);
  private final Map<String, Sought> sought = new LinkedHashMap<>(16, 0.75f, true);

  /** A search that ends soon after its stop is asked for. */
  interface Work<T> {
    T seek(SearchStop stop) throws UnworkableException;
  }

  /**
   * @param trial whether a newer trial of the same mouth ends it
   */
  private record Running(SearchStop stop, Future<?> answer, boolean trial) {}

  private record Sought(Object question, Map<Object, Running> found) {
    void end() {
      found.values().forEach(one -> one.stop().ask());
    }
  }

  private static Thread daemon(Runnable task) {
    Thread thread = new Thread(task, "course");
    thread.setDaemon(true);
    return thread;
  }

  /**
   * The answer to a search, begun where it has not begun.
   *
   * @param mouth whose course it is
   * @param question a new one for the mouth ends the searches for the one before
   * @param what tells the search from others for the question
   * @param trial whether it is one of which only the newest matters
   */
  <T> T answer(String mouth, Object question, Object what, boolean trial, Work<T> work)
      throws UnworkableException {
    try {
      @SuppressWarnings("unchecked") // What was sought under a name is what is asked for by it.
      T answer = (T) begun(mouth, question, what, trial, work).answer().get();
      return answer;
    } catch (InterruptedException ending) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("The program ends.", ending);
    } catch (ExecutionException failed) {
      if (failed.getCause() instanceof UnworkableException unworkable) {
        throw unworkable;
      }
      throw new IllegalStateException("A course could not be sought.", failed.getCause());
    }
  }

  private <T> Running begun(
      String mouth, Object question, Object what, boolean trial, Work<T> work) {
    synchronized (sought) {
      @Nullable Sought now = sought.get(mouth);
      if (now == null || !now.question().equals(question)) {
        if (now != null) {
          now.end();
        }
        now = new Sought(question, new LinkedHashMap<>());
        sought.put(mouth, now);
        dropEldest(sought, KEPT, Sought::end);
      }
      Map<Object, Running> found = now.found();
      @Nullable Running known = found.get(what);
      if (known != null) {
        return known;
      }
      if (trial) {
        found
            .values()
            .removeIf(
                one -> {
                  boolean over = one.trial() && !one.answer().isDone();
                  if (over) {
                    one.stop().ask();
                  }
                  return over;
                });
      }
      SearchStop stop = new SearchStop();
      Running running = new Running(stop, threads.submit(() -> timed(work, stop)), trial);
      found.put(what, running);
      dropEldest(found, ANSWERS, one -> one.stop().ask());
      return running;
    }
  }

  private static <K, V> void dropEldest(Map<K, V> map, int most, Consumer<V> end) {
    if (map.size() > most) {
      K eldest = map.keySet().iterator().next();
      @Nullable V gone = map.remove(eldest);
      if (gone != null) {
        end.accept(gone);
      }
    }
  }

  private <T> T timed(Work<T> work, SearchStop stop) throws UnworkableException {
    ScheduledFuture<?> end = clock.schedule(stop::ask, SECONDS, TimeUnit.SECONDS);
    try {
      return work.seek(stop);
    } finally {
      end.cancel(false);
    }
  }

  @Override
  public void close() {
    synchronized (sought) {
      sought.values().forEach(Sought::end);
    }
    // Whoever waits for one that has not begun would wait for ever.
    threads
        .shutdownNow()
        .forEach(
            task -> {
              if (task instanceof Future<?> unsought) {
                unsought.cancel(false);
              }
            });
    clock.shutdownNow();
  }
}
