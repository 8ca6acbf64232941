package quadrille.cli;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import quadrille.cli.render.ClashWords;
import quadrille.cli.render.ManyJson;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.planning.CoursePlanner;
import quadrille.plan.planning.PlanOutcome;
import quadrille.plan.planning.PlanOutcome.NoPlan;
import quadrille.plan.planning.PlanOutcome.Planned;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.staging.Effort;
import quadrille.plan.work.UnworkableException;

/**
 * Plans many charts side by side, one line of JSON a chart, in the order in which they come. Only a
 * window of charts is in memory at a time, whatever comes; a chart that fails is one line and stops
 * none of the others.
 */
final class ManyCharts {

  /** Charts in flight for each thread: enough that one slow chart keeps no other thread waiting. */
  private static final int AHEAD = 4;

  private final Practice practice;
  private final VisitRange visits;
  private final Effort effort;
  private final int threads;

  /** How a chart ended. */
  enum End {
    PLANNED,
    NO_PLAN,
    INVALID,
    FAILED
  }

  /** Takes lines, in order. */
  interface Sink {
    void line(String text) throws StopException;

    /** Takes what in a chart is worth a second look, before its line. */
    default void doubt(String sentence) {}
  }

  private record Answer(End end, String line, List<String> doubts) {
    Answer(End end, String line) {
      this(end, line, List.of());
    }
  }

  /**
   * @param threads how many charts are solved at once, 1 or more
   */
  ManyCharts(Practice practice, VisitRange visits, Effort effort, int threads) {
    this.practice = practice;
    this.visits = visits;
    this.effort = effort;
    this.threads = threads;
  }

  /**
   * Plans every chart of a source.
   *
   * @return how many charts ended how
   * @throws StopException where the source cannot be read on, or a line not be written
   */
  Map<End, Integer> run(ChartSource source, Sink sink) throws StopException {
    Map<End, Integer> ends = new EnumMap<>(End.class);
    ThreadLocal<CoursePlanner> planners =
        ThreadLocal.withInitial(() -> new CoursePlanner(effort, 1));
    ExecutorService pool = Executors.newFixedThreadPool(threads, ManyCharts::daemon);
    try {
      Deque<Future<Answer>> window = new ArrayDeque<>();
      int index = 0;
      try {
        for (ChartItem item = source.next(); item != null; item = source.next()) {
          if (window.size() == AHEAD * threads) {
            take(window, ends, sink);
          }
          ChartItem next = item;
          int number = ++index;
          window.add(pool.submit(() -> answer(number, next, planners.get())));
        }
      } catch (StopException broken) {
        // What came before the source broke off is answered all the same.
        while (!window.isEmpty()) {
          take(window, ends, sink);
        }
        throw broken;
      }
      while (!window.isEmpty()) {
        take(window, ends, sink);
      }
      return ends;
    } finally {
      pool.shutdownNow();
    }
  }

  private static Thread daemon(Runnable task) {
    Thread thread = new Thread(task, "plan");
    thread.setDaemon(true);
    return thread;
  }

  private static void take(Deque<Future<Answer>> window, Map<End, Integer> ends, Sink sink)
      throws StopException {
    Answer answer;
    try {
      answer = window.remove().get();
    } catch (ExecutionException e) {
      // What a chart throws is an answer; this is memory running out or the like.
      throw new IllegalStateException(Objects.requireNonNull(e.getCause()));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("The work was interrupted.", e);
    }
    answer.doubts().forEach(sink::doubt);
    sink.line(answer.line());
    ends.merge(answer.end(), 1, Integer::sum);
  }

  private Answer answer(int index, ChartItem item, CoursePlanner planner) {
    Chart chart;
    try {
      chart = item.reading().read();
    } catch (InvalidDocumentException invalid) {
      return new Answer(End.INVALID, ManyJson.invalid(index, item.place(), invalid.faults()));
    } catch (StopException unreadable) {
      return new Answer(
          End.INVALID, ManyJson.unreadable(index, item.place(), unreadable.getMessage()));
    } catch (RuntimeException | StackOverflowError fault) {
      return new Answer(End.FAILED, ManyJson.failed(index, item.place(), null, fault));
    }
    Answer answer = solved(index, item, chart, planner);
    return new Answer(answer.end(), answer.line(), ChartFile.doubts(item.place(), chart));
  }

  private Answer solved(int index, ChartItem item, Chart chart, CoursePlanner planner) {
    try {
      PlanOutcome outcome = planner.planOnly(chart, practice, visits, false);
      return outcome instanceof Planned planned
          ? new Answer(
              End.PLANNED, ManyJson.planned(index, item.place(), chart, practice, planned.course()))
          : new Answer(
              End.NO_PLAN,
              ManyJson.noPlan(
                  index,
                  item.place(),
                  chart.caseName(),
                  ClashWords.of(((NoPlan) outcome).clashes(), practice)));
    } catch (UnworkableException unworkable) {
      return new Answer(
          End.NO_PLAN,
          ManyJson.noPlan(
              index,
              item.place(),
              chart.caseName(),
              ClashWords.unworkable(unworkable.work(), chart)));
    } catch (RuntimeException | StackOverflowError fault) {
      return new Answer(End.FAILED, ManyJson.failed(index, item.place(), chart.caseName(), fault));
    }
  }
}
