package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Function;

/** Does independent work side by side, and hands the results back in the order of the work. */
final class SideBySide {

  private SideBySide() {}

  /**
   * @param threads how many at once, 1 or more
   */
  static <T, R> List<R> map(List<T> all, Function<T, R> work, int threads) {
    int atOnce = Math.min(threads, all.size());
    if (atOnce <= 1) {
      return all.stream().map(work).toList();
    }
    ExecutorService pool = Executors.newFixedThreadPool(atOnce, SideBySide::daemon);
    try {
      List<Future<R>> futures = new ArrayList<>();
      for (T each : all) {
        futures.add(pool.submit(() -> work.apply(each)));
      }
      List<R> results = new ArrayList<>();
      for (Future<R> future : futures) {
        results.add(future.get());
      }
      return results;
    } catch (ExecutionException failed) {
      if (failed.getCause() instanceof RuntimeException cause) {
        throw cause;
      }
      throw new IllegalStateException(failed.getCause());
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("Interrupted while seeking.", interrupted);
    } finally {
      pool.shutdownNow();
    }
  }

  private static Thread daemon(Runnable run) {
    Thread thread = new Thread(run, "seek");
    thread.setDaemon(true);
    return thread;
  }
}
