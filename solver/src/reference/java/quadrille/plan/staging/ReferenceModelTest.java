package quadrille.plan.staging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Objects;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.Technique;
import quadrille.plan.visit.Enumeration;
import quadrille.plan.visit.Mouth;
import quadrille.plan.visit.RandomMouths;
import quadrille.plan.visit.Sweep;
import quadrille.reference.Outcome;
import quadrille.reference.Problem;
import quadrille.reference.ReferenceModel;

/**
 * The CP-SAT model against the {@link Enumeration} of every course, and its courses against the
 * price that the program puts on them.
 */
final class ReferenceModelTest {
  private static final double SECONDS = 600;

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
    return random(0, 22, 9);
  }

  @ParameterizedTest
  @MethodSource("threeVisits")
  void provesWhatTheEnumerationFindsOfThreeVisits(Mouth mouth) {
    compare(mouth, 3);
  }

  static Stream<Named<Mouth>> threeVisits() {
    return random(1000, 1012, 7);
  }

  private static Stream<Named<Mouth>> random(int from, int to, int steps) {
    return IntStream.range(from, to)
        .mapToObj(seed -> Named.of("mouth " + seed, RandomMouths.of(seed, steps)))
        .filter(named -> oneNumbSide(named.getPayload()));
  }

  private static boolean oneNumbSide(Mouth mouth) {
    return mouth.practice().appointments().oneNumbSide();
  }

  /** The model knows nothing of areas that are finished where they are begun. */
  private static void compare(Mouth whole, int visits) {
    Mouth mouth = whole.passesApart();
    Problem problem = problem(mouth, visits);
    Outcome outcome = new ReferenceModel(problem).solve(SECONDS, 2);
    long cheapest = mouth.enumerated(visits).cheapest().seconds();
    assertTrue(
        outcome.status().equals(outcome.best() < 0 ? "INFEASIBLE" : "OPTIMAL"), outcome::status);
    if (outcome.best() >= 0) {
      Staged priced =
          new Stager(Effort.QUICK).rateAsOrdered(mouth.inVisits(visits), outcome.visits());
      assertTrue(priced.feasible(), () -> priced.brokenRules() + " " + mouth);
      assertEquals(outcome.best(), priced.seconds(), mouth::toString);
      assertEquals(outcome.best(), outcome.bound());
    }
    if (firstAgentIsShort(problem.practice())) {
      // Numbness may then decide the agent, which the model knows of single steps only.
      assertTrue(outcome.best() < 0 || outcome.best() >= cheapest, mouth::toString);
    } else {
      assertEquals(cheapest, outcome.best(), mouth::toString);
    }
  }

  private static Problem problem(Mouth mouth, int visits) {
    return new Problem(mouth.patient(), mouth.practice(), mouth.steps(), mouth.burdens(), visits);
  }

  private static boolean firstAgentIsShort(Practice practice) {
    Agent first = Objects.requireNonNull(practice.agents().get(practice.preferredAgents().get(0)));
    return first.pulpalMinutes().get(Technique.INFILTRATION).value() <= 5;
  }

  @Test
  void refusesAPracticeThatNumbsBothSides() {
    Mouth mouth = Mouth.of(Sweep.finishing("UR anterior", 60));
    mouth.practice("\"appointments\": {\"oneNumbSide\": false}");
    assertThrows(IllegalArgumentException.class, () -> new ReferenceModel(problem(mouth, 1)));
  }
}
