package quadrille.plan.planning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartReader;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.course.Course;
import quadrille.plan.course.LengthLimit;
import quadrille.plan.course.OneVisitFewer;
import quadrille.plan.course.Remedy.Change;
import quadrille.plan.course.WhyVisit;
import quadrille.plan.planning.PlanOutcome.NoPlan;
import quadrille.plan.planning.PlanOutcome.Planned;
import quadrille.plan.staging.Effort;

/** Clinical rows: a mouth in a few lines, and what its plan must say of its visits. */
class VisitReasonsTest {
  private static final Practice PRACTICE = PracticeReader.defaults();

  /** The right side alone, with a tooth or two for each of the nine inserts. */
  private static final List<String> NINE_INSERTS =
      List.of(
          tooth(16, "moderate", 5, ""),
          tooth(12, "moderate", 5, "\"crowded\""),
          tooth(46, "heavy", 5, ""),
          tooth(42, "moderate", 5, "\"calculus-bridge\""),
          tooth(43, "moderate", 4, ""),
          """
          {"tooth": "14", "status": "implant", "deposit": "light",
           "facial": {"depthMm": [3, 3, 3]}, "lingual": {"depthMm": [3, 3, 3]}}""");

  /**
   * That a tray holds eight is an assumption; a visit more, with its blocks, set-up and close, must
   * not be its silent work.
   */
  @Test
  void aTrayThatCostsAVisitIsNamedAsAnAssumption() throws Exception {
    Chart chart = chart("", NINE_INSERTS);
    Course course = planned(chart, PRACTICE, VisitRange.USUAL);
    assertEquals(2, course.visits().size());
    WhyVisit.Because tray = new WhyVisit.Tray(9, Figure.written(8, "assumption"));
    assertTrue(course.reasons().of(1).contains(new WhyVisit(1, List.of(2), tray)), say(course));
    assertTrue(course.reasons().of(2).contains(new WhyVisit(2, List.of(1), tray)), say(course));
    assertTrue(
        changes(course).contains(new Change.LargerTray(9, Figure.written(8, "assumption"))),
        say(course));
    assertEquals(1, planned(chart, tray(9), VisitRange.USUAL).visits().size());
  }

  /** One visit numbs one side: nothing on offer spares the second visit. */
  @Test
  void twoSidesTakeTwoVisitsAndNothingIsSaidToSpareOne() throws Exception {
    Chart chart = chart("", List.of(tooth(16, "light", 6, ""), tooth(26, "light", 6, "")));
    Course course = planned(chart, PRACTICE, VisitRange.USUAL);
    assertEquals(
        List.of(
            new WhyVisit(1, List.of(2), WhyVisit.Known.NUMB_SIDE),
            new WhyVisit(2, List.of(1), WhyVisit.Known.NUMB_SIDE)),
        course.reasons().visits());
    assertEquals(new OneVisitFewer(1, List.of()), course.reasons().oneVisitFewer());
  }

  /** The shortest visits that do are named, with whose limits have to give way. */
  @Test
  void longerVisitsAreTheShortestThatSpareOne() throws Exception {
    int tooShort = tooShort();
    Chart chart = chart(", \"longestVisitMinutes\": " + tooShort, RIGHT);
    Course course = planned(chart, PRACTICE, VisitRange.USUAL);
    int visits = course.visits().size();
    Change.LongerVisits longer = longer(course);
    assertEquals(tooShort, longer.insteadOfMinutes());
    assertEquals(
        List.of(LengthLimit.Whose.PATIENT), longer.limits().stream().map(l -> l.whose()).toList());
    VisitRange fewer = VisitRange.exactly(visits - 1);
    planned(sitting(chart, longer.minutes()), PRACTICE, fewer);
    assertInstanceOf(NoPlan.class, plan(sitting(chart, longer.minutes() - 10), PRACTICE, fewer));
  }

  /** What an alert caps is for a clinician to judge, and so must say whose limit it is. */
  @Test
  void anAlertsCapIsNamed() throws Exception {
    int tooShort = tooShort();
    Practice capped = capped(Alert.ANXIOUS, tooShort);
    Course course = planned(chart(", \"alerts\": [\"anxious\"]", RIGHT), capped, VisitRange.USUAL);
    LengthLimit cap =
        new LengthLimit(
            LengthLimit.Whose.ALERT, Alert.ANXIOUS, Figure.written(tooShort, "assumption"));
    assertTrue(longer(course).limits().contains(cap), say(course));
    assertTrue(
        course.reasons().visits().stream()
            .anyMatch(
                why ->
                    why.because() instanceof WhyVisit.TooLong tooLong
                        && tooLong.longestMinutes() == tooShort
                        && tooLong.limits().equals(List.of(cap))),
        say(course));
  }

  @Test
  void moreVisitsThanAreNeededAreThoseAskedFor() throws Exception {
    Course course = planned(chart("", RIGHT), PRACTICE, VisitRange.exactly(2));
    assertEquals(
        List.of(new WhyVisit(1, List.of(2), WhyVisit.Known.ASKED_FOR)), course.reasons().of(1));
    assertEquals(List.of(new Change.Visits(1)), changes(course));
  }

  @Test
  void aSingleVisitNeedsNoReason() throws Exception {
    Course course = planned(chart("", RIGHT), PRACTICE, VisitRange.exactly(1));
    assertEquals(List.of(), course.reasons().visits());
    assertEquals(null, course.reasons().oneVisitFewer());
  }

  /** A quadrant each above and below, deep. */
  private static final List<String> RIGHT =
      List.of(
          tooth(17, "moderate", 6, ""),
          tooth(16, "moderate", 6, ""),
          tooth(15, "moderate", 6, ""),
          tooth(45, "moderate", 6, ""),
          tooth(46, "moderate", 6, ""),
          tooth(47, "moderate", 6, ""));

  /** Minutes in which these areas do not fit together, though each does alone. */
  private static int tooShort() throws Exception {
    Course one = planned(chart("", RIGHT), PRACTICE, VisitRange.exactly(1));
    return one.visits().get(0).bookedMinutes() - 20;
  }

  private static String tooth(int tooth, String deposit, int mm, String features) {
    return """
    {"tooth": "%d", "deposit": "%s", "features": [%s],
     "facial": {"depthMm": [%3$d, %3$d, %3$d]}, "lingual": {"depthMm": [%3$d, %3$d, %3$d]}}"""
        .replace("%3$d", Integer.toString(mm))
        .formatted(tooth, deposit, features);
  }

  private static Chart chart(String patient, List<String> teeth) throws Exception {
    String alerts = patient.contains("alerts") ? "" : ", \"alerts\": []";
    return ChartReader.read(
        "chart.json",
        """
        {"schema": "quadrille/chart/1", "case": "reasons", "numbering": "iso3950",
         "patient": {"ageYears": 50, "weightKg": 75%s%s},
         "teeth": [%s]}"""
            .formatted(patient, alerts, String.join(",\n", teeth)));
  }

  private static Chart sitting(Chart chart, int minutes) {
    return chart.withPatient(chart.patient().withLongestVisitMinutes(minutes));
  }

  private static Practice tray(int holds) {
    return PRACTICE.withAppointments(
        PRACTICE.appointments().withKitHolds(new Figure(holds, Figure.OWN)));
  }

  private static Practice capped(Alert alert, int minutes) {
    return PRACTICE.withAlerts(
        PRACTICE.alerts().entrySet().stream()
            .collect(
                Collectors.toMap(
                    one -> one.getKey(),
                    one ->
                        one.getKey() == alert
                            ? one.getValue()
                                .withLongestVisitMinutes(Figure.written(minutes, "assumption"))
                            : one.getValue())));
  }

  private static PlanOutcome plan(Chart chart, Practice practice, VisitRange visits)
      throws Exception {
    return new CoursePlanner(Effort.QUICK, 1).plan(chart, practice, visits);
  }

  private static Course planned(Chart chart, Practice practice, VisitRange visits)
      throws Exception {
    return assertInstanceOf(Planned.class, plan(chart, practice, visits)).course();
  }

  private static List<Change> changes(Course course) {
    return Objects.requireNonNull(course.reasons().oneVisitFewer()).remedies().stream()
        .map(remedy -> remedy.change())
        .toList();
  }

  private static Change.LongerVisits longer(Course course) {
    return changes(course).stream()
        .flatMap(c -> c instanceof Change.LongerVisits it ? Stream.of(it) : Stream.empty())
        .findFirst()
        .orElseThrow(() -> new AssertionError(say(course)));
  }

  private static String say(Course course) {
    return course.reasons().toString();
  }
}
