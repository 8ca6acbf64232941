package quadrille.plan.scenario;

import static java.util.stream.Collectors.toCollection;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.DemoMouths;
import quadrille.mouths.MouthGenerator;
import quadrille.mouths.Profile;
import quadrille.mouths.Tries;
import quadrille.plan.audit.Rule;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;
import quadrille.plan.planning.GivenCourse;
import quadrille.plan.staging.Effort;
import quadrille.plan.staging.Stager;
import quadrille.plan.work.UnworkableException;

final class RuleOfThumbTest {
  private static final Practice PRACTICE = PracticeReader.defaults();

  @Test
  void takesAQuadrantAVisitInTheUsualOrder() throws Exception {
    assertEquals(
        List.of(List.of("UR"), List.of("LR"), List.of("UL"), List.of("LL")),
        quadrants(course(RuleOfThumb.QUADRANT, DemoMouths.chart("typical.json")).course()));
  }

  @Test
  void takesHalfAMouthAVisitRightFirst() throws Exception {
    assertEquals(
        List.of(List.of("UR", "LR"), List.of("UL", "LL")),
        quadrants(course(RuleOfThumb.HALF, DemoMouths.chart("typical.json")).course()));
  }

  @Test
  void startsWithTheComplaint() throws Exception {
    Chart chart = withComplaint(DemoMouths.chart("typical.json"), Quadrant.UL);
    assertEquals(
        List.of(List.of("UL"), List.of("LL"), List.of("UR"), List.of("LR")),
        quadrants(course(RuleOfThumb.QUADRANT, chart).course()));
    assertEquals(
        List.of(List.of("UL", "LL"), List.of("UR", "LR")),
        quadrants(course(RuleOfThumb.HALF, chart).course()));
  }

  @Test
  void leavesOutAQuadrantWithoutWork() throws Exception {
    Course course =
        course(RuleOfThumb.QUADRANT, DemoMouths.chart("edentulous-upper.json")).course();
    assertEquals(List.of(List.of("LR"), List.of("LL")), quadrants(course));
  }

  @Test
  void fitsTheNextQuadrantIntoTheFirstVisitThatHoldsIt() throws Exception {
    // The mild demo mouth is short enough for one visit of 90 minutes.
    Chart mild = DemoMouths.chart("mild-one-visit.json");
    assertEquals(1, course(RuleOfThumb.FIRST_FIT, mild).course().visits().size());
    Chart typical = DemoMouths.chart("typical.json");
    Course course = course(RuleOfThumb.FIRST_FIT, typical).course();
    for (Visit visit : course.visits()) {
      assertTrue(visit.bookedMinutes() <= 90, visit.bookedMinutes() + " minutes");
    }
  }

  /** Gross, fine, finishing, implant care; area by area; facial first; injections at the start. */
  @ParameterizedTest
  @EnumSource(RuleOfThumb.class)
  void doesAVisitAsSuchVisitsAreDone(RuleOfThumb rule) throws Exception {
    for (Visit visit : course(rule, DemoMouths.chart("typical.json")).course().visits()) {
      List<Entry.Debride> steps = visit.steps();
      List<Entry.Debride> sorted = new ArrayList<>(steps);
      List<AreaRef> areas = steps.stream().map(Entry.Debride::area).distinct().toList();
      sorted.sort(
          Comparator.comparing(Entry.Debride::pass)
              .thenComparing(step -> areas.indexOf(step.area()))
              .thenComparing(Entry.Debride::aspect));
      assertEquals(sorted, steps);
      boolean worked = false;
      for (Entry entry : visit.sequence()) {
        worked |= entry instanceof Entry.Debride;
        assertTrue(!worked || !(entry instanceof Entry.Inject), "an injection after work began");
      }
    }
  }

  @Test
  void isNoChoiceWhereItBreaksARule() throws Exception {
    GivenCourse half = course(RuleOfThumb.HALF, DemoMouths.chart("too-few-visits.json"));
    assertTrue(half.findings().stream().anyMatch(finding -> finding.rule() == Rule.H4));
  }

  /**
   * The rule book of the search and the audit share no reckoning of numbness, doses, clock or
   * booking; on courses that nobody made legal, both must call the same rules broken.
   */
  @ParameterizedTest
  @EnumSource(RuleOfThumb.class)
  void ruleBookAndAuditAgreeOnWhatIsBroken(RuleOfThumb rule) throws UnworkableException {
    int broken = 0;
    Stager stager = new Stager(Effort.QUICK);
    for (Profile profile :
        List.of(Profile.TREATMENT, Profile.SEVERE, Profile.IMPLANTS, Profile.CAPPED)) {
      for (long seed = 0; seed < Tries.of(10, 40); seed++) {
        Chart chart = MouthGenerator.mouth(seed, profile);
        var given = rule.course(chart, PRACTICE);
        if (given.isEmpty()) {
          continue;
        }
        TreeSet<String> byBook =
            stager.judged(given.get().staged()).brokenRules().stream()
                .map(rules -> "H" + rules.number())
                .collect(toCollection(TreeSet::new));
        TreeSet<String> byAudit =
            given.get().findings().stream()
                .map(finding -> finding.rule().toString())
                .collect(toCollection(TreeSet::new));
        assertEquals(byAudit, byBook, chart.caseName() + ": " + given.get().findings());
        broken += byBook.isEmpty() ? 0 : 1;
      }
    }
    assertTrue(broken > 0, "no course of the sample breaks a rule, so nothing was compared");
  }

  private static GivenCourse course(RuleOfThumb rule, Chart chart) throws UnworkableException {
    return rule.course(chart, PRACTICE).orElseThrow();
  }

  private static List<List<String>> quadrants(Course course) {
    List<List<String>> all = new ArrayList<>();
    for (Visit visit : course.visits()) {
      Set<String> quadrants = new LinkedHashSet<>();
      visit.areas().forEach(area -> quadrants.add(area.quadrant().name()));
      all.add(List.copyOf(quadrants));
    }
    // Whatever the order within a visit, no quadrant is met twice.
    List<String> flat = all.stream().flatMap(List::stream).toList();
    assertEquals(flat.size(), new HashSet<>(flat).size(), flat.toString());
    return all;
  }

  private static Chart withComplaint(Chart chart, Quadrant quadrant) {
    Patient old = chart.patient();
    return new Chart(
        chart.caseName(),
        chart.charted(),
        chart.numbering(),
        old.withStartWith(quadrant),
        chart.teeth());
  }
}
