package quadrille.plan.audit;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Jaw;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.AlertRule;
import quadrille.facts.practice.Appointments;
import quadrille.facts.practice.CodeHint;
import quadrille.facts.practice.Contact;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Frame;
import quadrille.facts.practice.Gel;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Insert;
import quadrille.facts.practice.InsertClass;
import quadrille.facts.practice.Minutes;
import quadrille.facts.practice.Numbing;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.PassRules;
import quadrille.facts.practice.PassesTogether;
import quadrille.facts.practice.Power;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.RuleSet;
import quadrille.facts.practice.SelectionRule;
import quadrille.facts.practice.Shank;
import quadrille.facts.practice.Technique;
import quadrille.facts.practice.Weights;

/**
 * A small practice with round numbers, so that a plan can be worked out by hand. Its figures are
 * made up for the tests; none of them is a default of the product.
 */
final class SmallPractice {

  private static final String MADE_UP = "made up for a test";
  private double back;
  private double worstFirst;
  private double needleWithinArea;
  double areaLeftOpen;
  double noRoomToRepeat;

  double unitMinutes = 1;
  double setUpMinutes = 10;
  double longestVisitMinutes = 90;
  int gapMinDays = 7;
  int kitHolds = 8;
  boolean oneNumbSide = true;
  boolean midlineInfiltration = true;
  PassesTogether passesTogether = PassesTogether.SAME_VISIT;
  int slimSets = 4;
  double pulpalMinutes = 60;
  double epinephrineCapMg = 0.2;
  boolean gelOwned;
  boolean lowerIncisorsBothSides = true;
  boolean numbFirst;
  Set<Numbing.Need> grossNeeds = EnumSet.of(Numbing.Need.TISSUE);
  List<String> preferredAgents = List.of("lidocaine-2-100", "prilocaine-4");
  final Map<Frame.Task, Frame.Part> frame = new EnumMap<>(Frame.Task.class);
  final Map<Alert, AlertRule> alerts = new EnumMap<>(Alert.class);

  static Figure figure(double value) {
    return new Figure(value, MADE_UP);
  }

  Practice build() {
    return new Practice(
        "small practice",
        Contact.NONE,
        new Appointments(
            figure(unitMinutes),
            figure(longestVisitMinutes),
            figure(0.8),
            figure(gapMinDays),
            figure(14),
            figure(6),
            figure(12),
            figure(kitHolds),
            oneNumbSide,
            midlineInfiltration,
            passesTogether),
        inserts(),
        new PassRules(
            Deposit.MODERATE,
            Set.of(),
            Deposit.LIGHT,
            figure(4),
            figure(7),
            EnumSet.of(Feature.CROWDED),
            figure(0.25),
            MADE_UP),
        List.of(
            row(Pass.GROSS, "standard straight", Power.MEDIUM),
            row(Pass.FINE, "slim straight", Power.LOW),
            row(Pass.FINISHING, "finest straight", Power.LOW),
            row(Pass.IMPLANT_CARE, "sleeved for implants", Power.LOW)),
        minutes(),
        new Frame(frame),
        new Numbing(
            figure(5),
            figure(5),
            Deposit.HEAVY,
            figure(5),
            grossNeeds,
            figure(1),
            figure(30),
            lowerIncisorsBothSides,
            numbFirst),
        agents(),
        preferredAgents,
        RuleSet.CONSERVATIVE,
        figure(epinephrineCapMg),
        injections(),
        new Gel(
            gelOwned,
            "pocket gel",
            List.of("lidocaine", "prilocaine"),
            figure(6),
            figure(60),
            figure(30),
            figure(14),
            figure(0.5),
            figure(1),
            figure(5),
            figure(18)),
        alerts,
        new Weights(
            figure(0.5),
            figure(600),
            figure(120),
            figure(60),
            figure(20),
            figure(noRoomToRepeat),
            figure(600),
            figure(back),
            figure(worstFirst),
            figure(areaLeftOpen),
            figure(needleWithinArea)),
        new CodeHint(false, figure(4), figure(2)));
  }

  /** What a needle between two steps of one pass of an area costs. */
  SmallPractice needles(double within) {
    this.needleWithinArea = within;
    return this;
  }

  /** What a return to a quadrant costs, and a visit that begins in an area without burden. */
  SmallPractice order(double back, double worstFirst) {
    this.back = back;
    this.worstFirst = worstFirst;
    return this;
  }

  SmallPractice alert(AlertRule rule) {
    alerts.put(rule.alert(), rule);
    return this;
  }

  private Map<String, Insert> inserts() {
    Map<String, Insert> inserts = new LinkedHashMap<>();
    put(inserts, "standard straight", InsertClass.STANDARD, Pass.GROSS, 4);
    put(inserts, "slim straight", InsertClass.SLIM, Pass.FINE, slimSets);
    put(inserts, "finest straight", InsertClass.FINEST, Pass.FINISHING, 4);
    put(inserts, "sleeved for implants", InsertClass.SLEEVED, Pass.IMPLANT_CARE, 4);
    return inserts;
  }

  private static void put(
      Map<String, Insert> inserts, String name, InsertClass type, Pass pass, int sets) {
    inserts.put(
        name,
        new Insert(
            name,
            type,
            Shank.STRAIGHT,
            EnumSet.of(pass),
            EnumSet.allOf(Power.class),
            sets,
            MADE_UP));
  }

  static SelectionRule row(Pass pass, String insert, Power power) {
    return row(pass, List.of(insert), power);
  }

  /**
   * @param inserts the first that may be used is taken
   */
  static SelectionRule row(Pass pass, List<String> inserts, Power power) {
    SelectionRule.When always =
        new SelectionRule.When(Set.of(), null, Set.of(), Set.of(), null, null, null, Set.of());
    return new SelectionRule(
        pass.word(),
        SelectionRule.Scope.AREA,
        pass,
        always,
        inserts,
        power,
        "one insert a pass",
        MADE_UP);
  }

  private static List<Figure> eight(double value) {
    List<Figure> figures = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      figures.add(figure(value));
    }
    return figures;
  }

  private Minutes minutes() {
    Map<Jaw, List<Figure>> roots = new EnumMap<>(Jaw.class);
    Map<Deposit, Figure> gross = new EnumMap<>(Deposit.class);
    for (Jaw jaw : Jaw.values()) {
      roots.put(jaw, eight(200));
    }
    for (Deposit deposit : Deposit.values()) {
      gross.put(deposit, figure(100));
    }
    return new Minutes(
        List.of(
            new Minutes.FineBand(0, figure(4)),
            new Minutes.FineBand(4, figure(16)),
            new Minutes.FineBand(5, figure(30))),
        roots,
        List.of(figure(1), figure(1), figure(1), figure(1)),
        figure(5),
        gross,
        eight(1),
        figure(60),
        figure(120),
        figure(60),
        figure(30),
        figure(15),
        figure(20),
        figure(1.5),
        figure(1),
        figure(setUpMinutes),
        figure(5),
        figure(0.2));
  }

  private Map<String, Agent> agents() {
    Map<String, Agent> agents = new LinkedHashMap<>();
    agents.put(
        "lidocaine-2-100",
        agent("lidocaine-2-100", "lidocaine", "epinephrine", 20, 0.01, 4.4, 300.0));
    agents.put("prilocaine-4", agent("prilocaine-4", "prilocaine", "none", 40, 0, 6, 400.0));
    agents.put("mepivacaine-3", agent("mepivacaine-3", "mepivacaine", "none", 30, 0, 4.4, 300.0));
    return agents;
  }

  private Agent agent(
      String name,
      String drug,
      String vasoconstrictor,
      double mgPerMl,
      double epinephrine,
      double mgPerKg,
      double capMg) {
    Map<RuleSet, Agent.Limit> limits = new EnumMap<>(RuleSet.class);
    limits.put(RuleSet.CONSERVATIVE, new Agent.Limit(figure(mgPerKg), figure(capMg)));
    Map<Technique, Figure> pulpal = new EnumMap<>(Technique.class);
    pulpal.put(Technique.BLOCK, figure(pulpalMinutes));
    pulpal.put(Technique.INFILTRATION, figure(pulpalMinutes));
    Map<Technique, Figure> onset = new EnumMap<>(Technique.class);
    onset.put(Technique.BLOCK, figure(4));
    onset.put(Technique.INFILTRATION, figure(2));
    return new Agent(
        name,
        name,
        drug,
        vasoconstrictor,
        figure(mgPerMl),
        figure(epinephrine),
        figure(1.8),
        limits,
        pulpal,
        figure(180),
        onset);
  }

  private static Map<String, Injection> injections() {
    List<Integer> all = List.of(1, 2, 3, 4, 5, 6, 7, 8);
    List<Integer> front = List.of(1, 2, 3, 4, 5);
    List<Integer> molars = List.of(6, 7, 8);
    Map<String, Injection> injections = new LinkedHashMap<>();
    injections.put(
        "inferior alveolar",
        new Injection(
            "inferior alveolar",
            Jaw.LOWER,
            Technique.BLOCK,
            false,
            false,
            false,
            true,
            List.of(),
            all,
            false,
            front,
            all,
            List.of(),
            List.of(new Injection.Volume(figure(1.5), null)),
            null,
            figure(10),
            figure(5),
            null,
            MADE_UP));
    injections.put(
        "long buccal",
        new Injection(
            "long buccal",
            Jaw.LOWER,
            Technique.BLOCK,
            true,
            false,
            false,
            false,
            List.of(),
            List.of(),
            false,
            molars,
            List.of(),
            List.of(),
            List.of(new Injection.Volume(figure(0.3), null)),
            null,
            null,
            null,
            null,
            MADE_UP));
    injections.put(
        "upper infiltration",
        new Injection(
            "upper infiltration",
            Jaw.UPPER,
            Technique.INFILTRATION,
            false,
            true,
            false,
            false,
            List.of(1, 2, 3),
            all,
            true,
            all,
            List.of(),
            List.of(),
            List.of(new Injection.Volume(figure(0.6), null)),
            null,
            null,
            null,
            null,
            MADE_UP));
    injections.put(
        "greater palatine",
        new Injection(
            "greater palatine",
            Jaw.UPPER,
            Technique.BLOCK,
            true,
            false,
            false,
            false,
            List.of(),
            List.of(),
            false,
            List.of(),
            List.of(4, 5, 6, 7, 8),
            List.of(),
            List.of(new Injection.Volume(figure(0.5), null)),
            null,
            null,
            null,
            null,
            MADE_UP));
    injections.put(
        "nasopalatine",
        new Injection(
            "nasopalatine",
            Jaw.UPPER,
            Technique.BLOCK,
            true,
            false,
            true,
            false,
            List.of(),
            List.of(),
            false,
            List.of(),
            List.of(1, 2, 3),
            List.of(),
            List.of(new Injection.Volume(figure(0.45), null)),
            null,
            null,
            null,
            null,
            MADE_UP));
    return injections;
  }
}
