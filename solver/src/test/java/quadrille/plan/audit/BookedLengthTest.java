package quadrille.plan.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Practice;
import quadrille.plan.audit.BookedLength.Failure;
import quadrille.plan.course.Course;
import quadrille.plan.course.Visit;

/**
 * How long a visit must be booked, by hand: in units of a minute, with a certainty of 80 % and a
 * spread of 0.2.
 */
final class BookedLengthTest {

  private final SmallPractice small = new SmallPractice();

  private BookedLength length(int fixed, int working, Failure... failures) {
    return new BookedLength(fixed, working, List.of(failures), small.build());
  }

  @Test
  void aVisitWithoutWorkTakesJustItsFixedPart() {
    assertEquals(0, length(600, 0).chanceWithin(9.99));
    assertEquals(1, length(600, 0).chanceWithin(10));
    assertEquals(10, length(600, 0).minutes());
    assertEquals(11, length(601, 0).minutes());
    small.unitMinutes = 10;
    assertEquals(10, length(600, 0).minutes());
    assertEquals(20, length(601, 0).minutes());
  }

  /** 300 s of work end within 348 s in 80 % of visits (normal table: z = 0.8416). */
  @Test
  void workIsSpread() {
    assertEquals(0, length(600, 300).chanceWithin(9));
    assertEquals(0, length(600, 300).chanceWithin(10));
    assertEquals(0.8, length(600, 300).chanceWithin(948 / 60.0), 0.001);
    assertEquals(16, length(600, 300).minutes());
  }

  /** Of ten visits three take 2 minutes more, and one 5. */
  @Test
  void aFailureTakesItsShareOfTheVisits() {
    BookedLength two = length(600, 0, new Failure(0.3, 120), new Failure(0.1, 300));
    assertEquals(0.6, two.chanceWithin(10), 1e-12);
    assertEquals(0.9, two.chanceWithin(12), 1e-12);
    assertEquals(1, two.chanceWithin(15), 1e-12);
    assertEquals(12, two.minutes());
  }

  @Test
  void theCertaintyItselfIsEnough() {
    assertEquals(10, length(600, 0, new Failure(0.2, 120)).minutes());
    assertEquals(12, length(600, 0, new Failure(0.21, 120)).minutes());
  }

  /** Two never fail in one visit; where shares come to more than all, they share all. */
  @Test
  void sharesOfMoreThanAllVisitsShareAll() {
    BookedLength often = length(600, 0, new Failure(0.9, 120), new Failure(0.6, 300));
    assertEquals(0, often.chanceWithin(11.9), 1e-12);
    assertEquals(0.6, often.chanceWithin(12), 1e-12);
    assertEquals(1, often.chanceWithin(15), 1e-12);
  }

  @Test
  void nothingIsBookedForMoreThanADay() {
    assertEquals(24 * 60, length(100_000, 0).minutes());
  }

  // ---- what the repeat of an injection takes

  private Practice practice(UnaryOperator<Injection> change) {
    Practice built = small.build();
    Map<String, Injection> injections = new java.util.LinkedHashMap<>(built.injections());
    injections.computeIfPresent("inferior alveolar", (name, one) -> change.apply(one));
    return built.withInjections(injections);
  }

  private List<Failure> failures(Practice practice, UnaryOperator<Visit> change) {
    PlanBuilder plan = new PlanBuilder(new SmallChart().build(), small.build());
    plan.visit().inject("inferior alveolar", Quadrant.LR).inject("long buccal", Quadrant.LR);
    Course course = plan.course();
    Visit visit = change.apply(course.visits().get(0));
    return BookedLength.of(
            VisitParts.of(1, visit, List.of(), practice, new Findings(course, Numbering.ISO3950)),
            practice)
        .failures();
  }

  /** 120 s to give it; its agent's 4 minutes, or its own 10 for the pulp and 5 for soft tissue. */
  private void assertRepeat(double seconds, UnaryOperator<Injection> change) {
    assertEquals(
        List.of(new Failure(0.2, seconds)),
        failures(
            practice(one -> change.apply(one).withFailureShare(SmallPractice.figure(0.2))),
            visit -> visit));
  }

  @Test
  void aRepeatTakesUntilAllThatItNumbsIsNumb() {
    assertRepeat(720, one -> one);
    assertRepeat(420, one -> one.withPulpOnsetMinutes(null));
    assertRepeat(720, one -> one.withTissueOnsetMinutes(null));
    assertRepeat(360, one -> one.withPulpOnsetMinutes(null).withTissueOnsetMinutes(null));
  }

  @Test
  void aRepeatDoesNotWaitForWhatItDoesNotNumb() {
    assertRepeat(420, one -> one.withPulp(List.of()));
    assertRepeat(720, one -> one.withPulp(List.of()).withMesiobuccalRoot(true));
    UnaryOperator<Injection> slow = one -> one.withTissueOnsetMinutes(SmallPractice.figure(20));
    assertRepeat(1320, slow);
    assertRepeat(1320, one -> slow.apply(one).withFacial(List.of()));
    assertRepeat(1320, one -> slow.apply(one).withLingual(List.of()));
    assertRepeat(720, one -> slow.apply(one).withFacial(List.of()).withLingual(List.of()));
  }

  @Test
  void whatCannotBeJudgedIsNotReckonedWith() {
    Practice mayFail = practice(one -> one.withFailureShare(SmallPractice.figure(0.2)));
    assertEquals(List.of(), failures(small.build(), visit -> visit));
    assertEquals(
        List.of(),
        failures(mayFail.withAgents(Map.of()).withPreferredAgents(List.of()), visit -> visit));
    assertEquals(List.of(), failures(mayFail.withInjections(Map.of()), visit -> visit));
    assertEquals(
        List.of(),
        failures(
            mayFail,
            visit ->
                visit.withSequence(List.of(visit.sequence().get(0), visit.sequence().get(2)))));
  }
}
