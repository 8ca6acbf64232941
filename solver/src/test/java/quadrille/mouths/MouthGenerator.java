package quadrille.mouths;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.AspectReading;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.ToothStatus;

/**
 * Random mouths, the same for the same seed and profile.
 *
 * <p>A person is drawn first (disease, deposit, bleeding), then each tooth is affected or not, then
 * the sites of an affected tooth are deep or not, those between the teeth more often. The shares
 * that {@link MouthGeneratorTest} checks follow published surveys; where no survey says how often
 * something occurs (features, alerts, weights, recession), the share is an assumption.
 */
public final class MouthGenerator {

  /** How much more often a tooth is affected than the mean tooth; assumption, molars worst. */
  private static final double[] PRONE = {0.75, 0.75, 0.7, 0.95, 1.0, 1.4, 1.45, 1.4};

  /** The alerts that are drawn, in a fixed order, so that a new one changes no mouth. */
  private static final List<Alert> DRAWN =
      List.of(
          Alert.HEART_DISEASE,
          Alert.ENDOCARDITIS_RISK,
          Alert.HIGH_BLOOD_PRESSURE,
          Alert.ANTICOAGULANT,
          Alert.DIABETES,
          Alert.PREGNANCY,
          Alert.METHAEMOGLOBINAEMIA_RISK,
          Alert.PACEMAKER,
          Alert.RESPIRATORY_INFECTION,
          Alert.SWALLOWING_DIFFICULTY,
          Alert.ANXIOUS,
          Alert.NEEDLE_AVERSE);

  private final Random random;
  private final Profile profile;
  private final Person person;

  private MouthGenerator(long seed, Profile profile) {
    // Random itself is specified bit for bit; mixing keeps neighbouring seeds from looking alike.
    this.random = new Random(mix(seed * Profile.values().length + profile.ordinal()));
    this.profile = profile;
    this.person = person();
  }

  /** The mouth of a seed; any seed will do. */
  public static Chart mouth(long seed, Profile profile) {
    if (profile == Profile.HOSTILE) {
      List<Chart> hostile = hostile();
      return hostile.get((int) Math.floorMod(seed, (long) hostile.size()));
    }
    return new MouthGenerator(seed, profile).chart(seed);
  }

  /** Mouths that a program must survive, each named by its case name. */
  public static List<Chart> hostile() {
    return HostileMouths.all();
  }

  /**
   * Charts with nothing to work on, named by their case names. The readers refuse them as
   * documents; a caller of the library may still build them.
   */
  public static List<Chart> toothless() {
    return HostileMouths.toothless();
  }

  /**
   * What is drawn once for a mouth.
   *
   * @param affected share of teeth with a deep site, before the tooth's own proneness
   * @param deepFrom the depth at which a site of an affected tooth counts as deep
   * @param deeper chance that a deep site is a millimetre deeper still, again and again
   * @param between chance that a site between teeth of an affected tooth is deep
   * @param middle chance that a middle site of an affected tooth is deep
   * @param deposit mean grade, 0 none to 3 heavy; negative for none at all
   * @param worst the worst grade in this mouth, which at least one tooth has
   * @param bleeding chance that a shallow site bleeds; deep ones bleed more often; 0 for nowhere
   */
  private record Person(
      double affected,
      int deepFrom,
      double deeper,
      double between,
      double middle,
      double deposit,
      Deposit worst,
      double bleeding) {}

  private Person person() {
    return switch (profile) {
      case POPULATION -> surveyed();
      case MILD ->
          new Person(between(0, 0.08), 4, 0, 0.4, 0.1, between(0.1, 0.8), Deposit.LIGHT, 0.08);
      case SEVERE ->
          new Person(
              between(0.7, 1), 5, 0.62, 0.8, 0.45, between(2.2, 3), Deposit.HEAVY, between(0.2, 1));
      case TREATMENT, IMPLANTS, CAPPED ->
          new Person(
              between(0.3, 0.8),
              5,
              0.42,
              0.65,
              0.26,
              between(1.2, 2.4),
              Deposit.HEAVY,
              between(0.1, 0.5));
      case HOSTILE -> throw new IllegalStateException("Hostile mouths are not drawn.");
    };
  }

  /**
   * Periodontitis 42 %, severe 7.8 % (Eke 2018). Calculus and bleeding go with disease (assumption)
   * at rates that give Albandar's shares of persons: 91.8 % with calculus, 55.1 % with calculus
   * below the margin, read here as a moderate or heavy grade, 50.3 % bleeding.
   */
  private Person surveyed() {
    double draw = random.nextDouble();
    boolean severe = draw < 0.078;
    boolean diseased = draw < 0.42;
    boolean belowMargin = chance(diseased ? 0.85 : 0.335);
    boolean calculus = belowMargin || chance(0.8174);
    boolean bleeds = chance(diseased ? 0.85 : 0.252);
    double affected = severe ? between(0.45, 0.8) : diseased ? between(0.04, 0.185) : 0.002;
    return new Person(
        affected,
        4,
        severe ? 0.5 : 0.3,
        0.45,
        0.15,
        calculus ? (belowMargin ? between(0.6, 1.6) : between(0.1, 0.7)) : -9,
        belowMargin
            ? (severe ? Deposit.HEAVY : Deposit.MODERATE)
            : calculus ? Deposit.LIGHT : Deposit.NONE,
        bleeds ? between(0.02, 0.3) : 0);
  }

  private Chart chart(long seed) {
    List<Tooth> standing = standing();
    Tooth depositAt = standing.get(random.nextInt(standing.size()));
    Tooth bleedingAt = standing.get(random.nextInt(standing.size()));
    boolean crowded = chance(0.2);
    boolean bridged = person.worst() == Deposit.HEAVY && chance(0.25);
    List<ToothChart> teeth = new ArrayList<>();
    for (Tooth tooth : Tooth.values()) {
      if (standing.contains(tooth)) {
        teeth.add(
            tooth(tooth, crowded, bridged, tooth.equals(depositAt), tooth.equals(bleedingAt)));
      } else if (chance(0.7)) {
        teeth.add(missing(tooth));
      }
    }
    if (profile == Profile.IMPLANTS) {
      addImplants(teeth);
    }
    return new Chart(
        "invented " + profile + " " + seed,
        LocalDate.of(2026, 1, 1),
        chance(0.8) ? Numbering.ISO3950 : Numbering.UNIVERSAL,
        patient(),
        teeth);
  }

  /** Third molars seldom, other teeth mostly; assumption. */
  private List<Tooth> standing() {
    double lost = between(0, profile == Profile.SEVERE ? 0.25 : 0.15);
    List<Tooth> standing =
        new ArrayList<>(
            Tooth.values().stream()
                .filter(tooth -> !chance(tooth.position() == 8 ? 0.85 : lost))
                .toList());
    if (standing.isEmpty()) {
      standing.add(Tooth.ofIso(13));
    }
    return standing;
  }

  private ToothChart tooth(
      Tooth tooth, boolean crowded, boolean bridged, boolean worstDeposit, boolean surelyBleeds) {
    Deposit deposit = worstDeposit ? person.worst() : deposit(tooth);
    int[] facial = new int[3];
    int[] lingual = new int[3];
    boolean affected = chance(person.affected() * PRONE[tooth.position() - 1]);
    for (int site = 0; site < 3; site++) {
      facial[site] = depth(affected, site == 1);
      lingual[site] = depth(affected, site == 1);
    }
    int deepest = Math.max(deepest(facial), deepest(lingual));
    if (affected && deepest < person.deepFrom()) {
      facial[chance(0.5) ? 0 : 2] = person.deepFrom();
      deepest = person.deepFrom();
    }
    int furcation =
        tooth.molar() && deepest >= 6 ? Math.min(3, random.nextInt(1 + (deepest - 4) / 2)) : 0;
    int mobility = deepest >= 6 ? Math.min(3, random.nextInt(1 + (deepest - 4) / 2)) : 0;
    return new ToothChart(
        tooth,
        ToothStatus.NATURAL,
        deposit,
        furcation,
        mobility,
        features(tooth, deposit, crowded, bridged),
        reading(tooth, Aspect.FACIAL, facial, deposit, surelyBleeds && person.bleeding() > 0),
        reading(tooth, Aspect.LINGUAL, lingual, deposit, false));
  }

  /** Most calculus on the lower incisors and the molars; grade spread is an assumption. */
  private Deposit deposit(Tooth tooth) {
    boolean lowerIncisor = tooth.quadrant().jaw() == Jaw.LOWER && tooth.position() <= 2;
    double more = lowerIncisor ? 0.6 : tooth.molar() ? 0.3 : -0.1;
    long grade = Math.round(person.deposit() + more + 0.5 * random.nextGaussian());
    return Deposit.values()[(int) Math.max(0, Math.min(person.worst().ordinal(), grade))];
  }

  private int depth(boolean affected, boolean middle) {
    if (affected && chance(middle ? person.middle() : person.between())) {
      int depth = person.deepFrom();
      while (depth < 12 && chance(person.deeper())) {
        depth++;
      }
      return depth;
    }
    // Shallow: 1 to 3 mm, nearer the threshold where the patient is diseased.
    if (person.deepFrom() == 5) {
      return (middle ? 2 : 3) + (chance(0.4) ? 1 : 0) - (chance(0.3) ? 1 : 0);
    }
    return 1 + (chance(middle ? 0.2 : 0.42) ? 1 : 0) + (chance(0.05) ? 1 : 0);
  }

  private AspectReading reading(
      Tooth tooth, Aspect aspect, int[] depths, Deposit deposit, boolean surelyBleeds) {
    boolean hidden = profile == Profile.SEVERE && deposit == Deposit.HEAVY && chance(0.15);
    Site[] sites = new Site[3];
    for (int i = 0; i < 3; i++) {
      boolean deep = depths[i] >= person.deepFrom();
      boolean bleeds = chance(Math.min(0.9, person.bleeding() * (deep ? 2.5 : 1)));
      boolean facialMiddle = aspect == Aspect.FACIAL && i == 1;
      int recession =
          chance(facialMiddle ? 0.35 : deep ? 0.3 : 0.1) ? 1 + random.nextInt(deep ? 3 : 2) : 0;
      Integer depth = hidden && chance(0.5) ? null : Integer.valueOf(depths[i]);
      sites[i] = new Site(depth, recession, bleeds || (surelyBleeds && i == 0));
    }
    return new AspectReading(sites[0], sites[1], sites[2]);
  }

  private Set<Feature> features(Tooth tooth, Deposit deposit, boolean crowded, boolean bridged) {
    Set<Feature> features = EnumSet.noneOf(Feature.class);
    boolean lowerFront = tooth.quadrant().jaw() == Jaw.LOWER && !tooth.posterior();
    add(features, Feature.CROWDED, lowerFront && crowded ? 0.7 : 0);
    add(features, Feature.CALCULUS_BRIDGE, lowerFront && bridged ? 0.9 : 0);
    add(features, Feature.TIGHT_TISSUE, deposit == Deposit.NONE ? 0 : 0.02);
    add(features, Feature.HEAVY_STAIN, tooth.posterior() ? 0.01 : 0.04);
    add(features, Feature.SENSITIVE, 0.03);
    add(features, Feature.RESTORATION_MARGIN, tooth.posterior() ? 0.1 : 0.03);
    add(features, Feature.DEMINERALISED, 0.01);
    return features;
  }

  private void add(Set<Feature> features, Feature feature, double chance) {
    if (chance(chance)) {
      features.add(feature);
    }
  }

  private void addImplants(List<ToothChart> teeth) {
    int implants = 1 + random.nextInt(8);
    for (int i = 0; i < implants; i++) {
      Tooth tooth = Tooth.values().get(random.nextInt(Tooth.values().size()));
      boolean inflamed = chance(0.4);
      teeth.removeIf(there -> there.tooth().equals(tooth));
      teeth.add(
          new ToothChart(
              tooth,
              ToothStatus.IMPLANT,
              Deposit.values()[random.nextInt(3)],
              0,
              0,
              Set.of(),
              implantReading(inflamed),
              implantReading(inflamed)));
    }
  }

  private AspectReading implantReading(boolean inflamed) {
    Site[] sites = new Site[3];
    for (int i = 0; i < 3; i++) {
      int depth = inflamed ? 4 + random.nextInt(4) : 2 + random.nextInt(2);
      sites[i] = new Site(depth, 0, inflamed && chance(0.6));
    }
    return new AspectReading(sites[0], sites[1], sites[2]);
  }

  private Patient patient() {
    boolean capped = profile == Profile.CAPPED;
    Set<Alert> alerts = EnumSet.noneOf(Alert.class);
    for (Alert alert : DRAWN) {
      if (chance(0.04)) {
        alerts.add(alert);
      }
    }
    if (capped) {
      alerts.add(Alert.HEART_DISEASE);
    }
    double weight = capped ? between(36, 48) : Math.max(40, 78 + 16 * random.nextGaussian());
    boolean weighed = capped || chance(0.95);
    int[] longest = {45, 60, 75, 90, 120};
    return new Patient(
        30 + random.nextInt(51),
        weighed ? Double.valueOf(Math.round(weight * 2) / 2.0) : null,
        chance(0.6) ? Integer.valueOf(longest[random.nextInt(longest.length)]) : null,
        alerts,
        startWith(),
        chance(0.1));
  }

  private @Nullable Quadrant startWith() {
    return chance(0.15) ? Quadrant.values()[random.nextInt(Quadrant.values().length)] : null;
  }

  private static ToothChart missing(Tooth tooth) {
    return new ToothChart(tooth, ToothStatus.MISSING, Deposit.NONE, 0, 0, Set.of(), null, null);
  }

  private boolean chance(double probability) {
    return random.nextDouble() < probability;
  }

  private double between(double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  private static int deepest(int[] depths) {
    return Math.max(depths[0], Math.max(depths[1], depths[2]));
  }

  /** The finaliser of the SplitMix64 generator (Steele, Lea, Flood 2014). */
  private static long mix(long seed) {
    long z = seed + 0x9e3779b97f4a7c15L;
    z = (z ^ (z >>> 30)) * 0xbf58476d1ce4e5b9L;
    z = (z ^ (z >>> 27)) * 0x94d049bb133111ebL;
    return z ^ (z >>> 31);
  }
}
