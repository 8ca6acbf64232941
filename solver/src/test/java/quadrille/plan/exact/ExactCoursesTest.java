package quadrille.plan.exact;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static quadrille.plan.visit.Sweep.fine;
import static quadrille.plan.visit.Sweep.gross;
import static quadrille.plan.work.StepAspect.FACIAL;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import quadrille.mouths.Tries;
import quadrille.plan.course.CourseTerm;
import quadrille.plan.staging.Effort;
import quadrille.plan.staging.Staged;
import quadrille.plan.staging.Stager;
import quadrille.plan.visit.Commitments;
import quadrille.plan.visit.Enumeration;
import quadrille.plan.visit.Mouth;
import quadrille.plan.visit.RandomMouths;
import quadrille.plan.visit.StagingCase;

/** The exact method against the {@link Enumeration} of every course. */
final class ExactCoursesTest {
  private static final int SEEDS = 60;

  private final Stager stager = new Stager(Effort.QUICK);

  static IntStream seeds() {
    return IntStream.range(0, SEEDS);
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void isTheCheapestOfAllCoursesOfTwoVisits(int seed) {
    compare(RandomMouths.of(seed, 9), 2);
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void isTheCheapestOfAllCoursesOfThreeVisits(int seed) {
    // The largest take seconds to enumerate: in the usual build one in four may be so large.
    compare(RandomMouths.of(1000 + seed, Tries.of(seed % 4 == 1 ? 7 : 6, 7)), 3);
  }

  /**
   * Here injections that wear off too soon need fewer cartridges, and leave room to repeat a block.
   * Before they are shown to wear off, those that last are found to take no longer.
   */
  @Test
  void visitIsPricedByTheInjectionsItTakes() {
    compare(RandomMouths.of(3044, 7), 2);
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void isTheCheapestThatOpensAsAsked(int seed) {
    compare(RandomMouths.opening(2000 + seed, 8), 2);
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void isTheCheapestAsWished(int seed) {
    compare(wished(seed), 2 + seed % 2);
  }

  private static Mouth wished(int seed) {
    return RandomMouths.of(seed % 2 == 0 ? seed : 1000 + seed, 9 - 2 * (seed % 2)).wishing(seed);
  }

  /** Wishes by chance would prove little if all were kept by chance, or none could be. */
  @Test
  void wishesAreOfManyKinds() {
    int legal = 0;
    int refused = 0;
    int unkept = 0;
    for (int seed = 0; seed < SEEDS; seed++) {
      Mouth mouth = wished(seed);
      StagingCase staging = mouth.inVisits(2 + seed % 2);
      ExactCourses.Answer answer = answer(staging);
      legal += answer.visits().isEmpty() ? 0 : 1;
      unkept +=
          !answer.visits().isEmpty() && rated(staging, answer).terms().get(CourseTerm.WISHES) > 0
              ? 1
              : 0;
      boolean free = !answer(mouth.wishing(List.of()).inVisits(2 + seed % 2)).infeasible();
      refused += answer.infeasible() && free ? 1 : 0;
    }
    assertTrue(legal >= 15, "legal: " + legal);
    assertTrue(refused >= 3, "refused: " + refused);
    assertTrue(unkept >= 3, "not kept: " + unkept);
  }

  @Test
  void openingsAreOfManyKinds() {
    int legal = 0;
    int looks = 0;
    for (int seed = 0; seed < SEEDS; seed++) {
      StagingCase staging = RandomMouths.opening(2000 + seed, 8).inVisits(2);
      ExactCourses.Answer answer = answer(staging);
      legal += answer.visits().isEmpty() ? 0 : 1;
      looks += (int) answer.visits().stream().filter(visit -> visit.lookAt() >= 0).count();
    }
    assertTrue(legal >= 20, "legal: " + legal);
    assertTrue(looks >= 10, "with a look: " + looks);
  }

  /** The random cases would prove little if none had a course. */
  @Test
  void randomCasesAreOfManyKinds() {
    int legal = 0;
    int infeasible = 0;
    for (int seed = 0; seed < SEEDS; seed++) {
      ExactCourses.Answer answer = answer(RandomMouths.of(seed, 9).inVisits(2));
      legal += answer.visits().isEmpty() ? 0 : 1;
      infeasible += answer.infeasible() ? 1 : 0;
    }
    assertTrue(legal >= 20, "legal: " + legal);
    assertTrue(infeasible >= 5, "infeasible: " + infeasible);
  }

  private static ExactCourses.Answer answer(StagingCase staging) {
    ExactCourses exact = new ExactCourses(staging, staging.longestMinutes(), () -> false);
    assertTrue(exact.answers());
    return exact.best(staging);
  }

  private void compare(Mouth mouth, int visits) {
    Enumeration.Cheapest cheapest = mouth.enumerated(visits).cheapest();
    StagingCase staging = mouth.inVisits(visits);
    ExactCourses.Answer answer = answer(staging);
    assertEquals(cheapest.seconds() < 0, answer.infeasible(), mouth::toString);
    // Where no more visits will be asked for, some sets need not be priced.
    assertEquals(
        answer.bound(),
        new ExactCourses(staging, () -> false).best(staging).bound(),
        mouth::toString);
    if (!answer.infeasible()) {
      Staged staged = rated(staging, answer);
      assertEquals(List.of(), staged.brokenRules(), mouth::toString);
      assertEquals(cheapest.seconds(), staged.seconds(), mouth::toString);
      assertEquals(cheapest.seconds(), answer.bound(), mouth::toString);
    }
  }

  private Staged rated(StagingCase staging, ExactCourses.Answer answer) {
    return stager.rateAsOrdered(
        staging,
        answer.visits().stream()
            .map(visit -> Arrays.stream(visit.order()).boxed().toList())
            .toList());
  }

  /** Who asks for some course gets one that keeps the rules, wherever there is one. */
  @ParameterizedTest
  @MethodSource("seeds")
  void someCourseIsKnownWhereverThereIsOne(int seed) {
    StagingCase staging = RandomMouths.of(seed, 9).inVisits(2);
    ExactCourses exact = new ExactCourses(staging, staging.longestMinutes(), () -> false);
    ExactCourses.Answer some = exact.any(staging);
    assertEquals(answer(staging).infeasible(), some.visits().isEmpty());
    if (!some.visits().isEmpty()) {
      assertEquals(List.of(), rated(staging, some).brokenRules());
    }
  }

  /** One table for all numbers of visits. */
  @Test
  void answersEveryNumberOfVisitsFromOneTable() {
    Mouth mouth = RandomMouths.of(4, 9);
    ExactCourses shared =
        new ExactCourses(mouth.inVisits(1), mouth.inVisits(1).longestMinutes(), () -> false);
    for (int visits = 1; visits <= 4; visits++) {
      ExactCourses.Answer alone = answer(mouth.inVisits(visits));
      ExactCourses.Answer answer = shared.best(mouth.inVisits(visits));
      assertEquals(alone.bound(), answer.bound());
      assertEquals(alone.visits().size(), answer.visits().size());
    }
  }

  @Test
  void aVisitThatStaysKeepsItsOrder() {
    StagingCase staging =
        Mouth.of(
                fine("UR posterior", FACIAL, 300),
                fine("UR anterior", FACIAL, 300),
                fine("UL posterior", FACIAL, 500))
            .stands(Commitments.Slot.FREE, new Commitments.Slot(List.of(2), null, null))
            .inVisits(2);
    List<int[]> orders = answer(staging).visits().stream().map(visit -> visit.order()).toList();
    assertEquals(2, orders.get(0).length);
    assertEquals(List.of(2), Arrays.stream(orders.get(1)).boxed().toList());
  }

  @Test
  void doesNotAnswerWherePassesMayLieApart() {
    StagingCase staging =
        Mouth.of(gross("UR posterior", FACIAL, 300), fine("UR posterior", FACIAL, 300))
            .passesApart()
            .inVisits(2);
    assertFalse(new ExactCourses(staging, staging.longestMinutes(), () -> false).answers());
  }
}
