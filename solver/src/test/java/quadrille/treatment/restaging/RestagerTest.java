package quadrille.treatment.restaging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.PassesTogether;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.DemoMouths;
import quadrille.plan.audit.Audit;
import quadrille.plan.audit.Rule;
import quadrille.plan.course.Caution;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.HardRule;
import quadrille.plan.course.NumbSide;
import quadrille.plan.course.PlanChange;
import quadrille.plan.course.PlanChange.What;
import quadrille.plan.course.Visit;
import quadrille.plan.planning.Clash;
import quadrille.plan.planning.CoursePlanner;
import quadrille.plan.planning.PlanOutcome.Planned;
import quadrille.plan.planning.Progress;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.staging.Effort;
import quadrille.seeking.SearchStop;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.Given;
import quadrille.treatment.record.Observation;
import quadrille.treatment.record.VisitDone;

/** What is promised, what failed, and what was given on the same day. */
final class RestagerTest {
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

  private static Visit visit(int number) {
    return course.visits().get(number - 1);
  }

  private static CourseLog after(VisitDone done) {
    return Records.with(Records.begun(course, chart, PRACTICE), done);
  }

  private static Restaged again(CourseLog log) throws Exception {
    return ((Restager.Outcome.Again) new Restager(Effort.QUICK).restage(log, PRACTICE, null))
        .restaged();
  }

  /** Nothing of the last step's pass was done. */
  private static VisitDone withLastPassLeft(List<Observation> findings) {
    Entry.Debride last = visit(1).steps().get(visit(1).steps().size() - 1);
    return Records.done(
        visit(1),
        0,
        step -> step.area().equals(last.area()) && step.pass() == last.pass() ? 0 : 1,
        findings);
  }

  @Test
  void bookedVisitsKeepTheirLengthsAndSides() throws Exception {
    for (int more : new int[] {0, 20}) {
      List<Event.Appointment> promised = new ArrayList<>();
      for (int number = 2; number <= 3; number++) {
        promised.add(
            new Event.Appointment(
                number,
                Records.DAY.plusDays(7L * number).atTime(9, 0),
                visit(number).bookedMinutes() + more,
                null));
      }
      Restaged restaged =
          again(Records.with(after(withLastPassLeft(List.of())), new Event.Booked(promised)));
      assertFalse(restaged.changes().isEmpty());
      for (Event.Appointment one : promised) {
        Visit kept =
            restaged.course().visits().stream()
                .filter(visit -> visit.number() == one.visit())
                .findFirst()
                .orElseThrow();
        assertTrue(kept.bookedMinutes() <= one.minutes(), kept.bookedMinutes() + " min");
        assertEquals(visit(one.visit()).numbSide(), kept.numbSide());
      }
    }
  }

  /** H11: what an interrupted visit left of an area comes next, whole, and in one visit. */
  @Test
  void anAreaThatWasBegunIsFinishedInTheNextVisit() throws Exception {
    AreaRef begun = visit(1).steps().get(visit(1).steps().size() - 1).area();
    Course left =
        again(
                after(
                    Records.done(
                        visit(1),
                        0,
                        step -> step.area().equals(begun) && step.pass() != Pass.GROSS ? 0 : 1,
                        List.of())))
            .course();
    assertEquals(List.of(left.visits().get(0)), at(left, begun));
  }

  /** A course that was planned with passes apart, and begun so. */
  @Test
  void whatOlderRulesBeganIsFinishedAsEarlyAsMayBe() throws Exception {
    Practice apart =
        PRACTICE.withAppointments(PRACTICE.appointments().withPassesTogether(PassesTogether.FREE));
    Course split =
        ((Planned)
                new CoursePlanner(Effort.QUICK).planOnly(chart, apart, VisitRange.exactly(4), true))
            .course();
    CourseLog log =
        Records.with(
            Records.begun(split, chart, apart),
            Records.done(split.visits().get(0), 0, step -> 1, List.of()));
    Set<AreaRef> begun = new TreeSet<>();
    split.visits().get(0).steps().forEach(step -> begun.add(step.area()));
    Course rest = again(log).course();
    assertEquals(PassesTogether.SAME_VISIT, rest.passesTogether());
    int last = 0;
    for (AreaRef area : begun) {
      List<Visit> visits = at(rest, area);
      assertTrue(visits.size() <= 1, area + " in " + visits.size() + " visits");
      for (Visit visit : visits) {
        last = Math.max(last, rest.visits().indexOf(visit));
      }
    }
    assertTrue(last < rest.visits().size() - 1, "Begun areas wait for visit " + (last + 1));
  }

  private static List<Visit> at(Course some, AreaRef area) {
    return some.visits().stream()
        .filter(visit -> visit.steps().stream().anyMatch(step -> step.area().equals(area)))
        .toList();
  }

  @Test
  void aFailedInjectionThatIsToBeGivenAgainIsACaution() throws Exception {
    GivenInjection first = visit(1).injections().get(0);
    Restaged restaged =
        again(
            after(
                Records.done(
                    visit(1),
                    0,
                    step -> 0,
                    List.of(
                        new Observation.FailedInjection(
                            first.injection(), first.quadrant(), first.tooth())))));
    List<Visit> giving =
        restaged.course().visits().stream()
            .filter(
                visit ->
                    visit.injections().stream().anyMatch(given -> given.ref().equals(first.ref())))
            .toList();
    assertFalse(giving.isEmpty());
    for (Visit visit : giving) {
      assertTrue(
          visit.cautions().contains(new Caution.DidNotTake(first.ref(), 1, Records.DAY)),
          visit.cautions().toString());
    }
  }

  /**
   * 78 kg, lidocaine, conservative: 4.4 mg/kg, capped at 300 mg, 15 mL of the 2 % solution. With
   * 14.5 mL given, 10 mg are left on that day and 300 on another.
   */
  @Test
  void dosesOfTheSameDayCountAndOfAnotherDoNot() throws Exception {
    VisitDone done = withLastPassLeft(List.of());
    VisitDone much =
        new VisitDone(
            done.visit(),
            done.date(),
            done.clinician(),
            done.steps(),
            List.of(new Given("inferior alveolar", Quadrant.LR, null, "lidocaine-2-100", 14.5)),
            done.gelCartridges(),
            done.minutes(),
            done.parts(),
            done.bookedMinutes(),
            false,
            List.of(),
            "");
    assertEquals(78.0, chart.patient().weightKg());
    assertFalse(again(after(much)).course().visits().get(0).injections().isEmpty());
    Restager.Outcome sameDay =
        new Restager(Effort.QUICK).restage(after(much), PRACTICE, Records.DAY);
    if (sameDay instanceof Restager.Outcome.Again again) {
      assertTrue(share(again.restaged().course().visits().get(0)) <= 1 - 14.5 / 15 + 1e-9);
      assertEquals(1, again.restaged().before().given().size());
    } else {
      List<Clash> clashes = ((Restager.Outcome.NoCourse) sameDay).clashes();
      assertTrue(clashes.stream().anyMatch(clash -> brokenNumber(clash) == 3), clashes.toString());
    }
  }

  /** The only set of an insert was opened in the morning. */
  @Test
  void setsOpenedEarlierThatDayAreMissingOnThatDayOnly() throws Exception {
    String insert =
        visit(1).tray().stream().filter(visit(2).tray()::contains).findFirst().orElseThrow();
    Practice one =
        PracticeReader.read(
            "one set",
            "{\"schema\": \"quadrille/practice/1\", \"inserts\": {\""
                + insert
                + "\": {\"sterileSets\": 1}}}");
    CourseLog log =
        Records.with(
            Records.begun(course, chart, one), Records.done(visit(1), 0, step -> 1, List.of()));
    Restager restager = new Restager(Effort.QUICK);
    Restaged later = ((Restager.Outcome.Again) restager.restage(log, one, null)).restaged();
    assertTrue(later.course().visits().get(0).tray().contains(insert));
    Restager.Outcome sameDay = restager.restage(log, one, Records.DAY);
    if (sameDay instanceof Restager.Outcome.Again again) {
      assertFalse(again.restaged().course().visits().get(0).tray().contains(insert));
    } else {
      List<Clash> clashes = ((Restager.Outcome.NoCourse) sameDay).clashes();
      assertTrue(
          clashes.stream().anyMatch(clash -> broken(clash) == HardRule.STERILE_SETS_OF_THE_DAY),
          clashes.toString());
    }
  }

  @Test
  void aStopChangesNothingWhereNothingIsSought() throws Exception {
    SearchStop stop = new SearchStop();
    stop.ask();
    CourseLog log = after(Records.done(visit(1), 0, step -> 1, List.of()));
    Restaged restaged =
        ((Restager.Outcome.Again)
                new Restager(Effort.QUICK, stop, Progress.UNHEARD).restage(log, PRACTICE, null))
            .restaged();
    assertEquals(List.of(), restaged.changes());
    assertFalse(restaged.course().cutShort());
  }

  /** The restager throws where a course does not pass its audit. */
  @Test
  void aStopIsToldWhereItMayHaveCostABetterCourse() throws Exception {
    SearchStop stop = new SearchStop();
    List<Integer> heard = new ArrayList<>();
    Restager.Outcome outcome =
        new Restager(
                Effort.QUICK,
                stop,
                (tried, of, best) -> {
                  assertTrue(tried <= of, tried + " of " + of);
                  heard.add(tried);
                  stop.ask();
                })
            .restage(after(withLastPassLeft(List.of())), PRACTICE, null);
    assertFalse(heard.isEmpty());
    if (outcome instanceof Restager.Outcome.Again again) {
      assertTrue(again.restaged().course().cutShort());
    } else {
      assertTrue(((Restager.Outcome.NoCourse) outcome).cutShort());
    }
  }

  @Test
  void anotherPracticeIsTheFirstChange() throws Exception {
    Practice other =
        PracticeReader.read(
            "other", "{\"schema\": \"quadrille/practice/1\", \"name\": \"another\"}");
    CourseLog log = after(Records.done(visit(1), 0, step -> 1, List.of()));
    Restaged restaged =
        ((Restager.Outcome.Again) new Restager(Effort.QUICK).restage(log, other, null)).restaged();
    PlanChange change = restaged.changes().get(0);
    assertEquals(null, change.visit());
    assertEquals(new What.OtherPractice("another", PRACTICE.name()), change.what());
    CourseLog adopted =
        Records.with(log, new Event.Replanned(restaged.course(), chart, restaged.changes(), other));
    assertEquals(other, adopted.practice());
    assertEquals(PRACTICE, adopted.practiceAt(2));
    assertEquals(
        List.of(),
        ((Restager.Outcome.Again) new Restager(Effort.QUICK).restage(adopted, other, null))
            .restaged()
            .changes());
  }

  /** H1 over the day: what is numb from the morning binds the afternoon. */
  @Test
  void noSecondSideIsNumbedOnTheDayOfTheLastVisit() throws Exception {
    CourseLog log = after(Records.done(visit(1), 0, step -> 1, List.of()));
    NumbSide morning = visit(1).numbSide();
    Restager restager = new Restager(Effort.QUICK);
    Restaged later = ((Restager.Outcome.Again) restager.restage(log, PRACTICE, null)).restaged();
    List<NumbSide> sides = later.course().visits().stream().map(Visit::numbSide).toList();
    assertTrue(sides.stream().anyMatch(side -> side != morning), sides.toString());
    Restaged sameDay =
        ((Restager.Outcome.Again) restager.restage(log, PRACTICE, Records.DAY)).restaged();
    NumbSide afternoon = sameDay.course().visits().get(0).numbSide();
    assertTrue(afternoon == morning || afternoon == NumbSide.NONE, afternoon.toString());
    assertTrue(
        sameDay.course().visits().get(0).cautions().stream()
            .anyMatch(
                caution ->
                    caution instanceof Caution.GivenThatDay given
                        && given.injections().size() == visit(1).injections().size()));
    // The audit alone tells the other side, too.
    int other = sides.get(0) == morning ? 1 : 0;
    Course wrong = later.course().withVisits(later.course().visits().subList(other, sides.size()));
    assertTrue(
        Audit.audit(wrong, sameDay.before(), chart, PRACTICE).stream()
            .anyMatch(finding -> finding.rule() == Rule.H1));
    assertFalse(
        Audit.audit(later.course(), later.before(), chart, PRACTICE).stream()
            .anyMatch(finding -> finding.rule() == Rule.H1));
  }

  /** What was left over may go into a longer visit, or one of its own, for calls and minutes. */
  @Test
  void otherWaysOnAreOfferedWithTheirCallsAndMinutes() throws Exception {
    Set<WayOn.Kind> met = new TreeSet<>();
    for (int spare : new int[] {0, 25}) {
      List<Event.Appointment> promised = new ArrayList<>();
      for (int number = 2; number <= 3; number++) {
        promised.add(
            new Event.Appointment(
                number,
                Records.DAY.plusDays(7L * number).atTime(9, 0),
                visit(number).bookedMinutes() + spare,
                null));
      }
      for (AreaRef left : visit(1).steps().stream().map(Entry.Debride::area).distinct().toList()) {
        CourseLog log =
            Records.with(
                after(
                    Records.done(
                        visit(1),
                        0,
                        step ->
                            step.area().equals(left) && (spare > 0 || step.pass() == Pass.FINISHING)
                                ? 0
                                : 1,
                        List.of())),
                new Event.Booked(promised));
        if (new Restager(Effort.QUICK).restage(log, PRACTICE, null)
            instanceof Restager.Outcome.Again again) {
          met.addAll(checked(log, again.restaged(), spare));
        }
      }
    }
    assertEquals(Set.of(WayOn.Kind.USUAL, WayOn.Kind.LONGER_VISIT, WayOn.Kind.VISIT_ADDED), met);
  }

  private static List<WayOn.Kind> checked(CourseLog log, Restaged usual, int spare)
      throws Exception {
    List<WayOn> ways = new Restager(Effort.QUICK).ways(log, PRACTICE, null, usual);
    assertEquals(WayOn.Kind.USUAL, ways.get(0).kind());
    assertEquals(usual, ways.get(0).restaged());
    for (WayOn way : ways) {
      assertEquals(
          List.of(),
          Audit.audit(way.restaged().course(), way.restaged().before(), chart, PRACTICE));
      int minutes = 0;
      List<WayOn.Call> calls = new ArrayList<>();
      for (Visit visit : way.restaged().course().visits()) {
        int needs = visit.bookedMinutes();
        int has = visit.number() <= 3 ? visit(visit.number()).bookedMinutes() + spare : 0;
        minutes += Math.max(needs, has);
        if (has == 0) {
          calls.add(new WayOn.Call.Make(visit.number(), needs));
        } else if (needs > has) {
          calls.add(new WayOn.Call.Lengthen(visit.number(), has, needs));
        }
      }
      for (int number = 2; number <= 3; number++) {
        int gone = number;
        if (way.restaged().course().visits().stream().noneMatch(v -> v.number() == gone)) {
          calls.add(new WayOn.Call.CallOff(number));
        }
      }
      assertEquals(calls, way.calls(), way.kind().name());
      assertEquals(minutes, way.minutes());
      assertEquals(
          minutes - visit(2).bookedMinutes() - visit(3).bookedMinutes() - 2 * spare, way.more());
      if (way.kind() == WayOn.Kind.VISIT_ADDED) {
        assertTrue(way.calls().stream().anyMatch(WayOn.Call.Make.class::isInstance));
      }
    }
    return ways.stream().map(WayOn::kind).toList();
  }

  /** Two short visits of one side become one, though the first of them is booked. */
  @Test
  void twoShortVisitsOfOneSideMayBeJoined() throws Exception {
    Chart mild = DemoMouths.chart("typical.json");
    Course many =
        ((Planned) new CoursePlanner(Effort.QUICK).plan(mild, PRACTICE, VisitRange.exactly(5)))
            .course();
    CourseLog log =
        Records.with(
            Records.with(
                Records.begun(many, mild, PRACTICE),
                Records.done(many.visits().get(0), 0, step -> 1, List.of())),
            new Event.Booked(
                List.of(
                    new Event.Appointment(
                        2,
                        Records.DAY.plusDays(7).atTime(9, 0),
                        many.visits().get(1).bookedMinutes(),
                        null))));
    Restaged usual = again(log);
    assertEquals(4, usual.course().visits().size());
    WayOn joined =
        new Restager(Effort.QUICK)
            .ways(log, PRACTICE, null, usual).stream()
                .filter(way -> way.kind() == WayOn.Kind.VISITS_JOINED)
                .findFirst()
                .orElseThrow();
    assertEquals(3, joined.restaged().course().visits().size());
    assertTrue(joined.more() < 0, joined.more() + " more");
  }

  private static double share(@Nullable Visit visit) {
    return visit == null ? 0 : visit.doseShare();
  }

  private static @Nullable HardRule broken(Clash clash) {
    return clash instanceof Clash.Broken broken ? broken.rule() : null;
  }

  private static int brokenNumber(Clash clash) {
    return clash instanceof Clash.Broken broken ? broken.rule().number() : 0;
  }
}
