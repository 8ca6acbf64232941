package quadrille.benchmark;

import java.io.PrintStream;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.PassesTogether;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.MouthGenerator;
import quadrille.mouths.Profile;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;
import quadrille.plan.planning.CoursePlanner;
import quadrille.plan.planning.PlanOutcome;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.staging.Effort;

/** What finishing each area in the visit in which it is begun costs, over generated mouths. */
final class PassesTable {

  private PassesTable() {}

  /** The sums of one rule over all mouths that have a plan by both. */
  private static final class Sums {
    private int visits;
    private long chairSeconds;
    private int injections;
    private int cartridges;
    private int halfDone;
    private int proven;
    private long costSeconds;
    private long nanos;

    void add(Course course) {
      visits += course.visits().size();
      chairSeconds += course.chairSeconds();
      injections += course.injections();
      cartridges += course.cartridges();
      halfDone += halfDone(course);
      proven += course.cost().provenBest() ? 1 : 0;
      costSeconds += course.cost().seconds();
    }
  }

  /** Areas that are left half done between visits. */
  private static int halfDone(Course course) {
    Map<AreaRef, Set<Integer>> visits = new HashMap<>();
    for (Visit visit : course.visits()) {
      for (Entry.Debride step : visit.steps()) {
        visits.computeIfAbsent(step.area(), area -> new HashSet<>()).add(visit.number());
      }
    }
    return (int) visits.values().stream().filter(some -> some.size() > 1).count();
  }

  static void print(int mouths, Effort effort, PrintStream out) {
    Practice together = PracticeReader.defaults();
    Practice apart =
        together.withAppointments(together.appointments().withPassesTogether(PassesTogether.FREE));
    Sums free = new Sums();
    Sums whole = new Sums();
    int nothing = 0;
    int none = 0;
    List<String> more = new ArrayList<>();
    List<String> notProven = new ArrayList<>();
    int fewer = 0;
    List<Double> chair = new ArrayList<>();
    for (int i = 0; i < mouths; i++) {
      Chart chart = mouth(i);
      Course before = plan(chart, apart, effort, free);
      Course after = plan(chart, together, effort, whole);
      if (before == null || after == null) {
        none++;
        if (before != null) {
          more.add(chart.caseName() + " (no plan)");
        }
        continue;
      }
      if (after.visits().isEmpty()) {
        nothing++;
        continue;
      }
      free.add(before);
      whole.add(after);
      int difference = after.visits().size() - before.visits().size();
      if (difference > 0) {
        more.add(chart.caseName() + " (" + before.visits().size() + ")");
      }
      if (!after.cost().provenBest()) {
        notProven.add(
            String.format(
                Locale.ROOT,
                "%s (%.2f %%)",
                chart.caseName(),
                100.0
                    * (after.cost().seconds() - after.cost().lowerBoundSeconds())
                    / after.cost().seconds()));
      }
      fewer += difference < 0 ? 1 : 0;
      if (difference == 0) {
        chair.add(100.0 * after.chairSeconds() / before.chairSeconds() - 100);
      }
    }
    chair.sort(null);
    out.printf(
        "%d mouths; %d without a plan by one of the rules, %d without work.%n%n",
        mouths, none, nothing);
    out.println(
        "| passes of an area | visits | chair minutes | injections | cartridges | areas half done | proven best | cost | ms a mouth |");
    out.println("|---|---|---|---|---|---|---|---|---|");
    row("anywhere", free, mouths, out);
    row("in one visit", whole, mouths, out);
    out.printf("%nA visit more: %d %s; fewer: %d.%n", more.size(), more, fewer);
    out.printf(
        Locale.ROOT,
        "Chair time where visits are as many: %.1f to %.1f %%, median %.1f %%.%n",
        chair.get(0),
        chair.get(chair.size() - 1),
        chair.get(chair.size() / 2));
    out.printf("Not proven best: %d %s%n", notProven.size(), notProven);
  }

  /** A mouth of every kind in turn, the hostile ones last of each round. */
  static Chart mouth(int i) {
    Profile[] profiles = Profile.values();
    return MouthGenerator.mouth(i, profiles[i % profiles.length]);
  }

  private static @Nullable Course plan(Chart chart, Practice practice, Effort effort, Sums sums) {
    long start = System.nanoTime();
    try {
      PlanOutcome outcome = new CoursePlanner(effort).plan(chart, practice, VisitRange.USUAL);
      return outcome instanceof PlanOutcome.Planned planned ? planned.course() : null;
    } catch (quadrille.plan.work.UnworkableException none) {
      return null;
    } finally {
      sums.nanos += System.nanoTime() - start;
    }
  }

  private static void row(String what, Sums sums, int mouths, PrintStream out) {
    out.printf(
        Locale.ROOT,
        "| %s | %d | %d | %d | %d | %d | %d | %d | %d |%n",
        what,
        sums.visits,
        sums.chairSeconds / 60,
        sums.injections,
        sums.cartridges,
        sums.halfDone,
        sums.proven,
        sums.costSeconds,
        sums.nanos / 1_000_000 / mouths);
  }
}
