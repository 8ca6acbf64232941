package quadrille.plan.staging;

import static org.junit.jupiter.api.Assertions.assertTrue;
import static quadrille.plan.visit.Sweep.fine;
import static quadrille.plan.visit.Sweep.finishing;
import static quadrille.plan.visit.Sweep.gross;
import static quadrille.plan.visit.Sweep.implant;
import static quadrille.plan.work.StepAspect.FACIAL;
import static quadrille.plan.work.StepAspect.LINGUAL;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Power;
import quadrille.mouths.Tries;
import quadrille.plan.visit.Enumeration;
import quadrille.plan.visit.Mouth;
import quadrille.plan.visit.RandomMouths;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepSet;
import quadrille.plan.visit.Sweep;
import quadrille.plan.visit.VisitTimeline;

/**
 * Small cases against the {@link Enumeration} of every course: equal cost, and no course where
 * there is none.
 */
final class ExhaustiveTest {
  private static final int SEEDS = 60;

  private static final Stager STAGER = new Stager(Effort.NORMAL);

  /** Courses of two visits of the random mouths, by seed. */
  private static final Map<Integer, Staged> OF_TWO = new ConcurrentHashMap<>();

  /** The largest take seconds to enumerate: in the usual build one in four may be so large. */
  private static Mouth mouth(int seed) {
    return RandomMouths.of(seed, Tries.of(seed % 4 == 0 ? 9 : 8, 9));
  }

  private static Staged ofTwo(int seed) {
    return OF_TWO.computeIfAbsent(seed, key -> STAGER.stage(mouth(key).passesApart().inVisits(2)));
  }

  @ParameterizedTest
  @MethodSource("handMade")
  void noCourseOfAHandMadeCaseIsCheaper(Mouth mouth) {
    assertTrue(compare(mouth.passesApart(), 2).feasible(), mouth::toString);
  }

  static Stream<Named<Mouth>> handMade() {
    return Stream.of(
        Named.of(
            "onset filled with work that needs none",
            Mouth.of(
                fine("LR posterior", FACIAL, 400).with("slim curved left").numb("46 pulp"),
                fine("LR posterior", LINGUAL, 300).with("slim curved right").numb("46 pulp"),
                fine("LR anterior", FACIAL, 350),
                fine("UR anterior", LINGUAL, 250),
                gross("UR anterior", FACIAL, 120),
                gross("LR posterior", FACIAL, 200),
                gross("LR posterior", LINGUAL, 200))),
        Named.of(
            "both sides of both jaws",
            Mouth.of(
                    fine("LR posterior", FACIAL, 500).numb("46 pulp", "46 facial"),
                    fine("LR posterior", LINGUAL, 500).numb("46 pulp", "46 lingual"),
                    fine("UR posterior", FACIAL, 450).numb("16 pulp", "16 facial"),
                    fine("UR posterior", LINGUAL, 450).numb("16 pulp", "16 lingual"),
                    fine("UL posterior", FACIAL, 480).numb("26 pulp", "26 facial"),
                    fine("UL posterior", LINGUAL, 480).numb("26 pulp", "26 lingual"),
                    fine("LL posterior", FACIAL, 520).numb("36 pulp", "36 facial"),
                    fine("LL posterior", LINGUAL, 520).numb("36 pulp", "36 lingual"))
                .burden("LL posterior", 60)
                .burden("UR posterior", 40)),
        Named.of(
            "implants on both sides",
            Mouth.of(
                    implant("UR posterior", 120).numb("16 facial"),
                    implant("UL posterior", 120).numb("26 lingual"),
                    implant("LL anterior", 120),
                    fine("UR posterior", FACIAL, 300),
                    fine("UL anterior", FACIAL, 300),
                    fine("LL anterior", LINGUAL, 300))
                .patient(Mouth.complaining(Quadrant.UL))),
        Named.of(
            "gel beside injections",
            Mouth.of(
                    fine("UR anterior", FACIAL, 300).withGel(),
                    fine("UR anterior", LINGUAL, 300).withGel(),
                    fine("UL posterior", FACIAL, 400).numb("25 pulp", "25 facial"),
                    gross("UL posterior", FACIAL, 150),
                    finishing("UR anterior", 90),
                    finishing("UL posterior", 60).numb("25 pulp", "25 facial", "25 lingual"))
                .practice("\"gel\": {\"owned\": true}")),
        Named.of(
            "three passes of two areas",
            Mouth.of(
                gross("LL anterior", LINGUAL, 90).with("broad flat"),
                gross("LL anterior", FACIAL, 90),
                fine("LL anterior", LINGUAL, 200).numb("31 pulp", "31 lingual"),
                finishing("LL anterior", 60).numb("31 pulp", "31 facial", "31 lingual"),
                gross("UL anterior", FACIAL, 90),
                fine("UL anterior", FACIAL, 260),
                fine("UL anterior", LINGUAL, 260).numb("22 pulp", "22 lingual"),
                finishing("UL anterior", 60))),
        Named.of(
            "right and left inferior alveolar blocks where two sides are allowed",
            Mouth.of(
                    fine("LR posterior", FACIAL, 300).numb("46 pulp"),
                    fine("LL posterior", FACIAL, 300).numb("36 pulp"),
                    fine("LR anterior", FACIAL, 200).numb("42 facial"),
                    fine("LL anterior", FACIAL, 200).numb("32 facial"),
                    fine("UR anterior", FACIAL, 200).numb("11 facial"),
                    fine("UL anterior", FACIAL, 200).numb("21 facial"))
                .practice("\"appointments\": {\"oneNumbSide\": false}")),
        Named.of(
            "by hand, a natural tooth beside an implant",
            Mouth.of(
                byHand(fine("UR posterior", FACIAL, 400).numb("15 pulp", "15 facial")),
                byHand(fine("UR posterior", LINGUAL, 380)),
                byHand(gross("UR posterior", FACIAL, 150)),
                implant("UR posterior", 190)
                    .with("hand instruments for implants")
                    .at(Power.NONE)
                    .numb("16 facial"),
                byHand(fine("LR anterior", FACIAL, 300)),
                byHand(fine("UL anterior", LINGUAL, 310)))),
        Named.of(
            "visits that only just fit",
            Mouth.of(
                    fine("UR posterior", FACIAL, 700),
                    fine("UR posterior", LINGUAL, 720),
                    fine("UL posterior", FACIAL, 690),
                    fine("UL posterior", LINGUAL, 650),
                    fine("UR anterior", FACIAL, 300),
                    fine("UL anterior", FACIAL, 310),
                    gross("UR posterior", FACIAL, 200))
                .patient(Mouth.sitting(60))),
        Named.of(
            "numb for a short time only",
            // Infiltrations last 10 minutes from their end, the block 40, its pulp numb after 10.
            Mouth.of(
                    fine("UR posterior", FACIAL, 200).numb("16 pulp", "15 pulp"),
                    fine("UR posterior", LINGUAL, 200).numb("16 pulp"),
                    fine("LR posterior", FACIAL, 700).numb("46 pulp"),
                    fine("LR posterior", LINGUAL, 600).numb("46 pulp"),
                    fine("UR anterior", FACIAL, 300),
                    gross("LR posterior", FACIAL, 100))
                .practice("\"preferredAgents\": [\"prilocaine-4\"]")),
        Named.of(
            "a heart patient under the epinephrine cap",
            Mouth.of(
                    fine("UR posterior", FACIAL, 500)
                        .numb("17 pulp", "16 pulp", "15 pulp", "14 pulp", "17 facial"),
                    fine("UR posterior", LINGUAL, 500).numb("17 lingual", "16 pulp"),
                    fine("LR posterior", FACIAL, 500).numb("46 pulp", "46 facial"),
                    fine("UL anterior", FACIAL, 300).numb("21 pulp", "21 facial"))
                .patient(Mouth.adult(75.0, Alert.HEART_DISEASE))));
  }

  private static Sweep byHand(Sweep sweep) {
    return sweep.with("hand instruments").at(Power.NONE);
  }

  /** What both sides need and what one does may come out of one cartridge. */
  @Test
  void aSharedCartridgeIsNotBoundTwice() {
    Mouth mouth =
        Mouth.of(
            fine("LR posterior", FACIAL, 300).numb("44 pulp", "44 facial"),
            fine("UR posterior", FACIAL, 300).numb("17 pulp", "17 facial"),
            gross("UR anterior", LINGUAL, 120).numb("11 lingual"),
            gross("UL anterior", LINGUAL, 120).numb("21 lingual"),
            fine("LL posterior", FACIAL, 700),
            fine("LL anterior", FACIAL, 700));
    assertTrue(compare(mouth, 1).feasible());
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void noRandomCourseOfTwoVisitsIsCheaper(int seed) {
    compare(mouth(seed), 2);
    compare(mouth(seed).passesApart(), 2, ofTwo(seed));
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void noRandomCourseOfThreeVisitsIsCheaper(int seed) {
    compare(RandomMouths.of(1000 + seed, 7), 3);
    compare(RandomMouths.of(1000 + seed, 7).passesApart(), 3);
  }

  static IntStream seeds() {
    return IntStream.range(0, SEEDS);
  }

  /** The random cases would prove little if most were hopeless, or none had anything to numb. */
  @Test
  void randomCasesAreOfManyKinds() {
    int legal = 0;
    int hopeless = 0;
    int injected = 0;
    int twoGroups = 0;
    int gelled = 0;
    int waiting = 0;
    for (int seed = 0; seed < SEEDS; seed++) {
      Staged staged = ofTwo(seed);
      legal += staged.feasible() ? 1 : 0;
      hopeless += staged.feasible() ? 0 : 1;
      List<VisitTimeline> visits = staged.layouts();
      injected += visits.stream().anyMatch(v -> v.dosing().injections() > 0) ? 1 : 0;
      twoGroups += visits.stream().anyMatch(v -> v.giveAt().length > 1) ? 1 : 0;
      gelled += visits.stream().anyMatch(v -> v.set().gelAspects() > 0) ? 1 : 0;
      waiting += visits.stream().anyMatch(v -> v.waitSeconds() > 0) ? 1 : 0;
    }
    assertTrue(legal >= 40, "legal: " + legal);
    assertTrue(hopeless >= 1, "hopeless: " + hopeless);
    assertTrue(injected >= 30, "with injections: " + injected);
    assertTrue(twoGroups >= 10, "with two groups of injections: " + twoGroups);
    assertTrue(gelled >= 10, "with gel: " + gelled);
    assertTrue(waiting >= 10, "that wait for numbness: " + waiting);
  }

  private static Staged compare(Mouth mouth, int visits) {
    return compare(mouth, visits, STAGER.stage(mouth.inVisits(visits)));
  }

  private static Staged compare(Mouth mouth, int visits, Staged staged) {
    Enumeration.Cheapest cheapest = mouth.enumerated(visits).cheapest();
    StagingCase staging = mouth.inVisits(visits);
    long cost = staged.feasible() ? staged.seconds() : -1;
    long known =
        cost < 0 || (cheapest.seconds() >= 0 && cheapest.seconds() < cost)
            ? cheapest.seconds()
            : cost;
    assertTrue(
        known < 0 || staged.bound().seconds() <= known,
        () -> "bound " + staged.bound().seconds() + " above " + known + ": " + mouth);
    if (cost == cheapest.seconds()) {
      return staged;
    }
    // A visit may have been kept short by an agent that the practice likes less, and only so.
    Enumeration.Cheapest least = mouth.enumerated(visits).lengthDecidesAgents().cheapest();
    boolean shortened =
        least.seconds() != cheapest.seconds()
            && cost >= least.seconds()
            && (cheapest.seconds() < 0 || cost <= cheapest.seconds());
    assertTrue(
        shortened,
        () -> {
          String gap = "expected " + cheapest.seconds() + ", but the course costs " + cost + ". ";
          if (cheapest.seconds() >= 0) {
            Staged same = STAGER.rate(staging, sets(cheapest.visitOf(), visits));
            gap +=
                same.feasible() && same.seconds() == cheapest.seconds()
                    ? "The search missed which step goes where: "
                    : "A visit is sequenced, numbed or counted otherwise: ";
            gap += sets(cheapest.visitOf(), visits) + " ";
          }
          return gap + mouth;
        });
    return staged;
  }

  private static List<StepSet> sets(int[] visitOf, int visits) {
    List<StepSet> sets = new ArrayList<>();
    for (int visit = 0; visit < visits; visit++) {
      StepSet set = StepSet.EMPTY;
      for (int step = 0; step < visitOf.length; step++) {
        set = visitOf[step] == visit ? set.with(step) : set;
      }
      sets.add(set);
    }
    return sets;
  }
}
