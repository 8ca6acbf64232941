package quadrille.treatment.restaging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.DemoMouths;
import quadrille.plan.audit.Audit;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.HardRule;
import quadrille.plan.course.Visit;
import quadrille.plan.planning.CoursePlanner;
import quadrille.plan.planning.PlanOutcome.Planned;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.staging.Effort;
import quadrille.treatment.restaging.OrderAtTheChair.Outcome;
import quadrille.treatment.restaging.OrderAtTheChair.Over;

/** Another order at the chair keeps what is over, and every rule. */
final class OrderAtTheChairTest {
  private static final Practice PRACTICE = PracticeReader.defaults();

  private static Chart chart;
  private static Course course;

  @BeforeAll
  static void plan() throws Exception {
    chart = DemoMouths.chart("typical.json");
    course =
        ((Planned) new CoursePlanner(Effort.QUICK).plan(chart, PRACTICE, VisitRange.exactly(3)))
            .course();
  }

  private static Outcome order(Visit visit, List<Integer> over, List<Integer> wanted) {
    return new OrderAtTheChair(course, chart, PRACTICE, null)
        .order(visit.number(), done(over), wanted);
  }

  private static List<Over> done(List<Integer> places) {
    return places.stream().map(place -> new Over(place, true)).toList();
  }

  private static boolean row(Entry entry) {
    return switch (entry.kind()) {
      case WAIT, CHANGE_TIP, REPOSITION -> false;
      default -> true;
    };
  }

  private static List<Integer> rows(Visit visit) {
    return IntStream.range(0, visit.sequence().size())
        .filter(i -> row(visit.sequence().get(i)))
        .boxed()
        .toList();
  }

  private static List<Integer> steps(Visit visit, List<Integer> places) {
    return places.stream()
        .filter(place -> place >= 0 && visit.sequence().get(place) instanceof Entry.Debride)
        .toList();
  }

  @Test
  void whatIsAskedForComesNextAndWhatIsOverStays() {
    Random random = new Random(7);
    Map<String, Integer> met = new LinkedHashMap<>();
    for (int trial = 0; trial < 30; trial++) {
      Visit visit = course.visits().get(trial % course.visits().size());
      List<Integer> rows = rows(visit);
      List<Integer> over = rows.subList(0, random.nextInt(rows.size() - 2));
      List<Integer> open = new ArrayList<>(steps(visit, rows));
      open.removeAll(over);
      if (open.isEmpty()) {
        continue;
      }
      int next = open.get(random.nextInt(open.size()));
      Outcome outcome = order(visit, over, List.of(next));
      met.merge(outcome.getClass().getSimpleName(), 1, Integer::sum);
      if (outcome instanceof Outcome.Ordered ordered) {
        List<Integer> done = steps(visit, over);
        assertEquals(done, ordered.steps().subList(0, done.size()));
        assertEquals(next, ordered.steps().get(done.size()));
        // Needles and the look included.
        assertEquals(
            over, ordered.places().stream().filter(at -> at >= 0).limit(over.size()).toList());
        // Nothing is lost or added, and each row is known by its place in the plan.
        assertEquals(rows, ordered.places().stream().filter(at -> at >= 0).sorted().toList());
        for (int i = 0; i < ordered.places().size(); i++) {
          assertEquals(ordered.places().get(i) >= 0, row(ordered.visit().sequence().get(i)));
        }
        assertTrue(60 * ordered.toBook() >= ordered.visit().expectedSeconds());
        met.merge(ordered.toBook() > visit.bookedMinutes() ? "Longer" : "Fits", 1, Integer::sum);
        // Said again in full, the same.
        List<Integer> rest = ordered.steps().subList(done.size(), ordered.steps().size());
        assertEquals(ordered, order(visit, over, rest));
      }
    }
    assertTrue(met.getOrDefault("Ordered", 0) >= 10, met.toString());
    assertTrue(met.getOrDefault("Refused", 0) >= 5, met.toString());
    assertTrue(met.containsKey("Longer") && met.containsKey("Fits"), met.toString());
  }

  @Test
  void theFirstStepNextChangesNothing() {
    for (Visit visit : course.visits()) {
      List<Integer> rows = rows(visit);
      int first = steps(visit, rows).get(0);
      Outcome.Ordered same =
          assertInstanceOf(Outcome.Ordered.class, order(visit, List.of(), List.of(first)));
      assertTrue(same.visit().expectedSeconds() <= visit.expectedSeconds());
    }
  }

  @Test
  void aCourseWithTheGrossPassFirstGoesOnInAnotherOrderToo() throws Exception {
    Course gross =
        ((Planned)
                new CoursePlanner(Effort.QUICK)
                    .planOnly(chart, PRACTICE, VisitRange.exactly(4), true))
            .course();
    Visit visit = gross.visits().get(0);
    int first = steps(visit, rows(visit)).get(0);
    assertInstanceOf(
        Outcome.Ordered.class,
        new OrderAtTheChair(gross, chart, PRACTICE, null)
            .order(visit.number(), List.of(), List.of(first)));
  }

  @Test
  void fineBeforeGrossIsRefused() {
    Visit visit =
        course.visits().stream()
            .filter(one -> one.steps().stream().anyMatch(step -> step.pass() == Pass.GROSS))
            .findFirst()
            .orElseThrow();
    Entry.Debride gross =
        visit.steps().stream().filter(step -> step.pass() == Pass.GROSS).findFirst().orElseThrow();
    int fine =
        steps(visit, rows(visit)).stream()
            .filter(
                at ->
                    visit.sequence().get(at) instanceof Entry.Debride step
                        && step.pass() == Pass.FINE
                        && step.area().equals(gross.area()))
            .findFirst()
            .orElseThrow();
    assertEquals(
        new Outcome.Refused(List.of(HardRule.ORDER_OF_PASSES_IN_A_VISIT)),
        order(visit, List.of(), List.of(fine)));
  }

  /** Otherwise the wait until it numbs would be forgotten. */
  @Test
  void whatIsStillToBeInjectedComesAfterWhatIsOver() throws Exception {
    Chart moderate = DemoMouths.chart("moderate.json");
    Course two =
        ((Planned) new CoursePlanner(Effort.QUICK).plan(moderate, PRACTICE, VisitRange.exactly(2)))
            .course();
    int checked = 0;
    for (Visit visit : two.visits()) {
      List<Integer> rows = rows(visit);
      int inject =
          IntStream.range(0, rows.size())
              .filter(at -> visit.sequence().get(rows.get(at)) instanceof Entry.Inject)
              .findFirst()
              .orElse(0);
      List<Integer> over = rows.subList(0, inject);
      List<Integer> done = steps(visit, over);
      for (int next : done.isEmpty() ? List.<Integer>of() : steps(visit, rows)) {
        if (!done.contains(next)
            && new OrderAtTheChair(two, moderate, PRACTICE, null)
                    .order(visit.number(), done(over), List.of(next))
                instanceof Outcome.Ordered ordered) {
          int worked = 0;
          for (Entry entry : ordered.visit().sequence()) {
            worked += entry instanceof Entry.Debride ? 1 : 0;
            assertFalse(entry instanceof Entry.Inject && worked < done.size(), "next " + next);
          }
          checked++;
        }
      }
    }
    assertTrue(checked > 3, checked + " checked");
  }

  /** Nor is anything that is still to come put before it: the look at the bleeding, a needle. */
  @Test
  void theLookAtTheBleedingStaysWhereItWasOrComesAfterWhatIsOver() throws Exception {
    Chart careful =
        chart.withPatient(
            new Patient(54, 72.0, 60, Set.of(Alert.DIRECT_ORAL_ANTICOAGULANT), null, false));
    Course looked =
        ((Planned) new CoursePlanner(Effort.QUICK).plan(careful, PRACTICE, new VisitRange(2, 8)))
            .course();
    OrderAtTheChair chair = new OrderAtTheChair(looked, careful, PRACTICE, null);
    int notLooked = 0;
    int kept = 0;
    for (Visit visit : looked.visits()) {
      List<Integer> rows = rows(visit);
      int look =
          IntStream.range(0, rows.size())
              .filter(at -> visit.sequence().get(rows.get(at)) instanceof Entry.Look)
              .findFirst()
              .orElse(rows.size());
      for (int count = 0; count <= Math.min(look + 3, rows.size()); count++) {
        // Who ticks the next step before the look has not looked yet.
        boolean late = count > look + 1;
        List<Integer> over = new ArrayList<>(rows.subList(0, count));
        if (late) {
          over.remove(look);
        }
        List<Integer> open = new ArrayList<>(steps(visit, rows));
        open.removeAll(over);
        if (steps(visit, over).isEmpty() || open.isEmpty()) {
          continue;
        }
        for (int next : List.of(open.get(0), open.get(open.size() - 1))) {
          if (chair.order(visit.number(), done(over), List.of(next))
              instanceof Outcome.Ordered ordered) {
            assertEquals(
                over, ordered.places().stream().filter(at -> at >= 0).limit(over.size()).toList());
            kept++;
          }
          notLooked += late ? 1 : 0;
        }
      }
    }
    assertTrue(notLooked > 0 && kept > 2, notLooked + " not looked, " + kept + " kept");
  }

  /** A needle that was not given numbs nothing, however the rest is put in order. */
  @Test
  void whatWasNotGivenIsNamedAsLongAsWorkIsLeftUnderIt() {
    int named = 0;
    for (Visit visit : course.visits()) {
      List<Integer> rows = rows(visit);
      for (int i = 0; i < rows.size(); i++) {
        Entry entry = visit.sequence().get(rows.get(i));
        if (!(entry instanceof Entry.Inject)) {
          continue;
        }
        List<Over> over = new ArrayList<>(done(rows.subList(0, i)));
        over.add(new Over(rows.get(i), false));
        List<Integer> left = steps(visit, rows.subList(i, rows.size()));
        OrderAtTheChair chair = new OrderAtTheChair(course, chart, PRACTICE, null);
        assertEquals(
            new Outcome.NotNumbed(List.of(entry)),
            chair.order(visit.number(), over, List.of(left.get(0))));
        // Once nothing is left that must be numb, it is no obstacle.
        left.stream()
            .filter(at -> ((Entry.Debride) visit.sequence().get(at)).needsNumb())
            .forEach(at -> over.add(new Over(at, false)));
        assertFalse(chair.order(visit.number(), over, List.of()) instanceof Outcome.NotNumbed);
        named++;
      }
    }
    assertTrue(named > 3, named + " named");
  }

  /** What was injected early wears off early: the plan's own order of giving is not assumed. */
  @Test
  void whatWasInjectedAlreadyStaysWhereItWasGiven() {
    int checked = 0;
    for (Visit visit : course.visits()) {
      List<Integer> rows = rows(visit);
      int last =
          rows.stream()
              .filter(at -> visit.sequence().get(at) instanceof Entry.Inject)
              .reduce(-1, (one, other) -> other);
      if (last < 0) {
        continue;
      }
      List<Integer> over = rows.subList(0, rows.indexOf(last) + 1);
      List<Integer> open = new ArrayList<>(steps(visit, rows));
      open.removeAll(over);
      for (int next : open) {
        if (order(visit, over, List.of(next)) instanceof Outcome.Ordered ordered) {
          int worked = steps(visit, over).size();
          int step = 0;
          for (Entry entry : ordered.visit().sequence()) {
            step += entry instanceof Entry.Debride ? 1 : 0;
            assertFalse(entry instanceof Entry.Inject && step > worked);
          }
          checked++;
        }
      }
    }
    assertTrue(checked > 3, checked + " checked");
    assertEquals(List.of(), Audit.audit(course, chart, PRACTICE));
  }

  /** What was given again before any work under it numbs from then on, and is waited for. */
  @Test
  void whatIsGivenAgainIsWaitedForFromThen() throws Exception {
    int waited = 0;
    int notWaited = 0;
    Course two =
        ((Planned)
                new CoursePlanner(Effort.QUICK)
                    .plan(DemoMouths.chart("moderate.json"), PRACTICE, VisitRange.exactly(2)))
            .course();
    for (Course some : List.of(course, two)) {
      Chart of = some == two ? DemoMouths.chart("moderate.json") : chart;
      OrderAtTheChair chair = new OrderAtTheChair(some, of, PRACTICE, null);
      for (Visit visit : some.visits()) {
        List<Integer> rows = rows(visit);
        for (int again : rows) {
          if (!(visit.sequence().get(again) instanceof Entry.Inject)) {
            continue;
          }
          int given = rows.indexOf(again);
          for (int count = given + 1; count < rows.size() - 1; count++) {
            List<Integer> over = rows.subList(0, count);
            List<Integer> since = steps(visit, rows.subList(given, count));
            List<Integer> together =
                rows.stream().filter(at -> quadrant(visit, at) == quadrant(visit, again)).toList();
            boolean under =
                since.stream().anyMatch(at -> by(visit, at).stream().anyMatch(together::contains));
            List<Over> ended = new ArrayList<>(done(over));
            ended.add(new Over(again, true));
            List<Integer> open = new ArrayList<>(steps(visit, rows));
            open.removeAll(over);
            if (since.isEmpty()
                || open.isEmpty()
                || !(chair.order(visit.number(), ended, List.of(open.get(0)))
                    instanceof Outcome.Ordered ordered)) {
              continue;
            }
            assertEquals(
                under ? List.of(visit.sequence().get(again)) : List.of(), ordered.notWaited());
            List<Integer> places = ordered.places();
            int last = places.indexOf(since.get(since.size() - 1));
            assertEquals(under, places.indexOf(again) < last);
            notWaited += under ? 1 : 0;
            if (!under) {
              // Never sooner than it would be numb, counted from when it was given again.
              Entry.Inject injected =
                  (Entry.Inject) ordered.visit().sequence().get(places.indexOf(again));
              int onset =
                  PRACTICE
                      .agents()
                      .get(
                          visit.injections().stream()
                              .filter(one -> one.ref().equals(injected.injection()))
                              .findFirst()
                              .orElseThrow()
                              .agent())
                      .onsetMinutes()
                      .values()
                      .stream()
                      .mapToInt(figure -> (int) (60 * figure.value()))
                      .min()
                      .orElseThrow();
              open.stream()
                  .filter(at -> by(visit, at).contains(again))
                  .mapToInt(at -> ordered.visit().sequence().get(places.indexOf(at)).startSecond())
                  .forEach(at -> assertTrue(at >= injected.startSecond() + onset, at + ""));
              waited++;
            }
          }
        }
      }
    }
    assertTrue(waited > 0 && notWaited > 0, waited + " waited, " + notWaited + " not");
  }

  private static @Nullable Quadrant quadrant(Visit visit, int at) {
    return visit.sequence().get(at) instanceof Entry.Inject inject
        ? inject.injection().quadrant()
        : null;
  }

  private static List<Integer> by(Visit visit, int step) {
    return Numbed.by(visit, (Entry.Debride) visit.sequence().get(step), PRACTICE);
  }

  @Test
  void workUnderANeedleThatWasNotGivenIsNamed() {
    int named = 0;
    for (Visit visit : course.visits()) {
      for (int step : steps(visit, rows(visit))) {
        List<Integer> under = by(visit, step);
        Entry.Debride work = (Entry.Debride) visit.sequence().get(step);
        assertEquals(work.needsNumb(), !under.isEmpty());
        for (int needle : under) {
          assertEquals(
              List.of(work),
              Numbed.workedWithout(
                  visit, List.of(new Over(needle, false), new Over(step, true)), PRACTICE));
          assertEquals(
              List.of(),
              Numbed.workedWithout(
                  visit, List.of(new Over(needle, true), new Over(step, true)), PRACTICE));
          named++;
        }
      }
    }
    assertTrue(named > 3, named + " named");
  }
}
