package quadrille.plan.staging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.function.IntFunction;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Patient;
import quadrille.plan.course.CourseTerm;
import quadrille.plan.visit.Enumeration;
import quadrille.plan.visit.Mouth;
import quadrille.plan.visit.RandomMouths;
import quadrille.plan.visit.Sweep;
import quadrille.reference.Outcome;
import quadrille.reference.Problem;
import quadrille.reference.ReferenceModel;

/**
 * The CP-SAT models against the {@link Enumeration} of every course, and their courses against the
 * price that the program puts on them.
 */
final class ReferenceModelTest {
  private static final double EFFORT = 600;

  @ParameterizedTest
  @MethodSource("handMade")
  void provesWhatTheEnumerationFindsOfHandMadeCases(Mouth mouth) {
    compare(mouth, 2);
  }

  static Stream<Named<Mouth>> handMade() {
    return ExhaustiveTest.handMade().filter(named -> oneNumbSide(named.getPayload()));
  }

  @ParameterizedTest
  @MethodSource("twoVisits")
  void provesWhatTheEnumerationFindsOfTwoVisits(Mouth mouth) {
    compare(mouth, 2);
  }

  static Stream<Named<Mouth>> twoVisits() {
    return random(0, 40, seed -> RandomMouths.of(seed, 9));
  }

  @ParameterizedTest
  @MethodSource("threeVisits")
  void provesWhatTheEnumerationFindsOfThreeVisits(Mouth mouth) {
    compare(mouth, 3);
  }

  static Stream<Named<Mouth>> threeVisits() {
    return random(1000, 1020, seed -> RandomMouths.of(seed, 7));
  }

  /** Numb first, and a look at the bleeding. */
  @ParameterizedTest
  @MethodSource("openings")
  void provesWhatTheEnumerationFindsOfVisitsThatOpenAsAsked(Mouth mouth) {
    compare(mouth, 2);
  }

  static Stream<Named<Mouth>> openings() {
    return random(2000, 2020, seed -> RandomMouths.opening(seed, 8));
  }

  /** So light that a block which fails can hardly be repeated. */
  @ParameterizedTest
  @MethodSource("light")
  void provesWhatTheEnumerationFindsWhereNoBlockCanBeRepeated(Mouth mouth) {
    compare(mouth, 2);
  }

  static Stream<Named<Mouth>> light() {
    return random(
        3000,
        3020,
        seed -> {
          Mouth mouth = RandomMouths.of(seed, 7);
          Patient patient = mouth.patient();
          return mouth.patient(
              new Patient(
                  50,
                  15.0,
                  patient.longestVisitMinutes(),
                  EnumSet.of(Alert.HEART_DISEASE),
                  patient.startWith(),
                  false));
        });
  }

  @Test
  void someBlocksOfTheLightOnesHaveNoRoom() {
    assertTrue(
        light()
            .map(Named::getPayload)
            .map(mouth -> new Stager(Effort.QUICK).stage(mouth.inVisits(2)))
            .filter(Staged::feasible)
            .anyMatch(staged -> staged.terms().get(CourseTerm.NO_ROOM_TO_REPEAT) > 0));
  }

  private static Stream<Named<Mouth>> random(int from, int to, IntFunction<Mouth> of) {
    return IntStream.range(from, to)
        .mapToObj(seed -> Named.of("mouth " + seed, of.apply(seed)))
        .filter(named -> oneNumbSide(named.getPayload()));
  }

  private static boolean oneNumbSide(Mouth mouth) {
    return mouth.practice().appointments().oneNumbSide();
  }

  private static void compare(Mouth mouth, int visits) {
    Outcome outcome = new ReferenceModel(problem(mouth, visits)).solve(EFFORT);
    assertTrue(
        outcome.status().equals(outcome.best() < 0 ? "INFEASIBLE" : "OPTIMAL"), outcome::status);
    if (outcome.best() >= 0) {
      Staged priced =
          new Stager(Effort.QUICK).rateAsOrdered(mouth.inVisits(visits), outcome.visits());
      assertTrue(priced.feasible(), () -> priced.brokenRules() + " " + mouth);
      assertEquals(outcome.best(), priced.seconds(), mouth::toString);
      assertEquals(outcome.best(), outcome.bound());
    }
    assertEquals(mouth.enumerated(visits).cheapest().seconds(), outcome.best(), mouth::toString);
  }

  private static Problem problem(Mouth mouth, int visits) {
    return new Problem(mouth.patient(), mouth.practice(), mouth.steps(), mouth.burdens(), visits);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "\"appointments\": {\"oneNumbSide\": false}",
        "\"appointments\": {\"passesTogether\": \"free\"}"
      })
  void refusesAPracticeThatItDoesNotKnow(String settings) {
    Mouth mouth = Mouth.of(Sweep.finishing("UR anterior", 60)).practice(settings);
    assertThrows(IllegalArgumentException.class, () -> new ReferenceModel(problem(mouth, 1)));
  }
}
