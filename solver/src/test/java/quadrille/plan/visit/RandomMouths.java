package quadrille.plan.visit;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Pass;
import quadrille.plan.work.StepAspect;

/**
 * Small random staging problems, the same for the same seed: two to four areas, patients and
 * practices of several kinds, injections, gel, implants, several inserts.
 */
public final class RandomMouths {
  private static final String GEL = "\"gel\": {\"owned\": true}";

  private static final List<String> PRACTICES =
      List.of(
          "\"name\": \"the default\"",
          "\"weights\": {\"returnToQuadrant\": 240, \"worstFirst\": 200}",
          // Numb for a short time, so that the order has to keep the numbness.
          "\"preferredAgents\": [\"prilocaine-4\", \"mepivacaine-3\"]",
          "\"preferredAgents\": [\"mepivacaine-3\", \"articaine-4-200\"]",
          "\"appointments\": {\"oneNumbSide\": false}",
          "\"appointments\": {\"certainty\": 0.3, \"longestVisitMinutes\": 70}",
          "\"appointments\": {\"kitHolds\": 3, \"longestVisitMinutes\": 70}",
          "\"minutes\": {\"tipChangeSeconds\": 150, \"repositionAspectSeconds\": 40}",
          "\"weights\": {\"balance\": 0, \"splitQuadrant\": 0, \"worstLate\": 600,"
              + " \"returnToQuadrant\": 0, \"worstFirst\": 0}");

  private final Random random;
  private final EnumSet<Quadrant> gelled = EnumSet.noneOf(Quadrant.class);

  private RandomMouths(long seed) {
    this.random = new Random(seed * 7919 + 13);
  }

  public static Mouth of(long seed, int mostSteps) {
    Mouth mouth = new RandomMouths(seed).mouth(mostSteps);
    return switch ((int) (seed % 5)) {
      case 3 -> mouth.charting(Pass.FINE, 45);
      case 4 -> mouth.charting(Pass.GROSS, 70);
      default -> mouth;
    };
  }

  /** All on one side of the mouth and for one visit, which may be as long as it likes. */
  public static Mouth oneSided(long seed, int mostSteps) {
    RandomMouths random = new RandomMouths(seed);
    List<String> areas =
        random.some(
            2 + random.random.nextInt(2),
            List.of("UR posterior", "UR anterior", "LR posterior", "LR anterior"));
    String agents =
        switch (random.random.nextInt(3)) {
          case 0 -> "[\"prilocaine-4\", \"articaine-4-200\"]";
          case 1 -> "[\"mepivacaine-3\", \"prilocaine-4\"]";
          default -> "[\"lidocaine-2-100\"]";
        };
    return Mouth.of(random.sweeps(areas, mostSteps))
        .practice(
            GEL
                + ", \"appointments\": {\"longestVisitMinutes\": 480}, \"preferredAgents\": "
                + agents);
  }

  /** With nothing touched before it is numb, or a look at the bleeding after few teeth, or both. */
  public static Mouth opening(long seed, int mostSteps) {
    RandomMouths random = new RandomMouths(seed);
    Mouth mouth = random.mouth(mostSteps);
    boolean looks = seed % 3 != 0;
    String settings = GEL + ", \"numbing\": {\"numbFirst\": " + (seed % 3 != 1) + "}";
    if (looks) {
      Patient patient = mouth.patient();
      EnumSet<Alert> alerts = EnumSet.of(Alert.WARFARIN);
      mouth.patient(
          new Patient(50, 75.0, patient.longestVisitMinutes(), alerts, patient.startWith(), false));
      int teeth = 3 + (int) (seed % 2);
      settings +=
          ", \"alerts\": {\"anticoagulant\": {\"includes\": [], \"teethBeforeLook\": "
              + teeth
              + "}}";
    }
    return mouth.practice(settings);
  }

  private Mouth mouth(int mostSteps) {
    List<String> areas = new ArrayList<>();
    for (Quadrant quadrant : Quadrant.values()) {
      areas.add(quadrant + " posterior");
      areas.add(quadrant + " anterior");
    }
    areas = some(2 + random.nextInt(3), areas);
    Mouth mouth = Mouth.of(sweeps(areas, mostSteps));
    mouth.practice(GEL + ", " + PRACTICES.get(random.nextInt(PRACTICES.size())));
    mouth.patient(patient());
    for (String area : areas) {
      mouth.burden(area, random.nextInt(40));
    }
    return mouth;
  }

  private Patient patient() {
    Set<Alert> alerts =
        switch (random.nextInt(6)) {
          case 0 -> Set.of(Alert.HEART_DISEASE);
          case 1 -> Set.of(Alert.NEEDLE_AVERSE);
          case 2 -> Set.of(Alert.ENDOCARDITIS_RISK);
          case 3 -> Set.of(Alert.ANTICOAGULANT);
          default -> Set.of();
        };
    return new Patient(
        50,
        random.nextInt(4) == 0 ? 12.0 : 75.0,
        random.nextInt(4) == 0 ? Integer.valueOf(60) : null,
        alerts,
        random.nextInt(4) == 0 ? Quadrant.values()[random.nextInt(4)] : null,
        false);
  }

  private <T> List<T> some(int number, List<T> of) {
    List<T> all = new ArrayList<>(of);
    Collections.shuffle(all, random);
    return List.copyOf(all.subList(0, number));
  }

  /** Steps of each area in turn until there are enough. */
  private List<Sweep> sweeps(List<String> areas, int most) {
    List<Sweep> sweeps = new ArrayList<>();
    for (int i = 0; sweeps.size() < most && i < 20; i++) {
      String area = areas.get(i % areas.size());
      sweeps.addAll(block(area, Pass.values()[(i / areas.size() + random.nextInt(2)) % 4]));
    }
    return List.copyOf(sweeps.subList(0, Math.min(most, sweeps.size())));
  }

  private List<Sweep> block(String area, Pass pass) {
    int seconds = 40 + random.nextInt(30) * 20;
    return switch (pass) {
      case GROSS -> aspects(Sweep.gross(area, StepAspect.FACIAL, seconds), "standard bent");
      case FINE -> aspects(Sweep.fine(area, StepAspect.FACIAL, seconds), "slim curved right");
      case FINISHING -> List.of(numbed(Sweep.finishing(area, seconds)));
      case IMPLANT_CARE -> List.of(Sweep.implant(area, seconds));
    };
  }

  private List<Sweep> aspects(Sweep facial, String otherInsert) {
    List<Sweep> sweeps = new ArrayList<>();
    sweeps.add(numbed(random.nextBoolean() ? facial : facial.with(otherInsert)));
    if (random.nextInt(3) > 0) {
      Sweep lingual =
          new Sweep(
              facial.area(),
              facial.pass(),
              StepAspect.LINGUAL,
              facial.insert(),
              facial.power(),
              20 + random.nextInt(30) * 20,
              facial.needs(),
              false);
      sweeps.add(numbed(random.nextBoolean() ? lingual : lingual.with(otherInsert)));
    }
    return sweeps;
  }

  private Sweep numbed(Sweep sweep) {
    int draw = random.nextInt(10);
    Quadrant quadrant = Quadrant.valueOf(sweep.area().substring(0, 2));
    if (draw == 0 && sweep.aspect() != StepAspect.BOTH && gelled.add(quadrant)) {
      return sweep.withGel();
    }
    if (draw > 5) {
      return sweep;
    }
    int position =
        sweep.area().endsWith("posterior") ? 4 + random.nextInt(4) : 1 + random.nextInt(3);
    String tooth = quadrant.isoDigit() + "" + position;
    Sweep numbed =
        switch (sweep.aspect()) {
          case FACIAL -> sweep.numb(tooth + " facial");
          case LINGUAL -> sweep.numb(tooth + " lingual");
          case BOTH -> sweep.numb(tooth + " facial", tooth + " lingual");
        };
    if (sweep.pass() != Pass.GROSS) {
      numbed = numbed.numb(tooth + " pulp");
      if (position == 6 && quadrant.jaw() == Jaw.UPPER) {
        numbed = numbed.numb(tooth + " mesiobuccal root");
      }
    }
    return numbed;
  }
}
