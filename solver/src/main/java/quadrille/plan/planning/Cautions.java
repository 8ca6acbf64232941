package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.Stream;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartSigns;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.AlertRule;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.PatientRules;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.Technique;
import quadrille.plan.course.Caution;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.InjectionRef;
import quadrille.plan.course.PlanChange.AreaPass;
import quadrille.plan.course.StopQuestion;
import quadrille.plan.course.Visit;
import quadrille.plan.work.ChartFirst;
import quadrille.plan.work.WorkNote;

/** What the clinician is asked to mind. Prompts, never clearances. */
final class Cautions {

  /**
   * 4 %: paraesthesia after prilocaine is reported 7.3 times, after articaine 3.6 times as often as
   * expected, 94.5 % after a lower block (Garisto 2010, JADA).
   */
  private static final double STRONG_MG_PER_ML = 40;

  /** Under it somebody else consents, years; by most laws. */
  private static final int OF_AGE_YEARS = 18;

  /** From here on a patient is very old, years, and under this one very light, kg. Assumptions. */
  private static final int VERY_OLD_YEARS = 80;

  private static final int VERY_LIGHT_KG = 45;

  private Cautions() {}

  /** For the whole course: alerts, what the chart leaves open, what the plan does not decide. */
  static List<Caution> ofCourse(
      Chart chart, Practice practice, int visits, List<WorkNote> workNotes) {
    List<Caution> cautions = new ArrayList<>();
    PatientRules rules = PatientRules.of(practice, chart.patient());
    if (!rules.historyTaken()) {
      cautions.add(Caution.Known.HISTORY_NOT_TAKEN);
    }
    if (visits > 0) {
      rules.covers().forEach(one -> cautions.add(new Caution.AntibioticCovers(one, visits)));
    }
    for (AlertRule rule : rules.alerts()) {
      rule.cautions().forEach(text -> cautions.add(new Caution.AsWritten(text)));
    }
    for (Alert alert : chart.patient().history().alerts()) {
      if (practice.alertRule(alert).isEmpty()) {
        cautions.add(new Caution.UnknownAlert(alert));
      }
    }
    if (rules.prefersGel() && !practice.gel().owned()) {
      cautions.add(Caution.Known.GEL_WOULD_BE_LIKED);
    }
    workNotes.forEach(note -> cautions.add(new Caution.OfWork(note)));
    addOfPatient(chart.patient(), cautions);
    return List.copyOf(cautions);
  }

  private static void addOfPatient(Patient patient, List<Caution> cautions) {
    if (patient.ageYears() == null) {
      cautions.add(Caution.Known.AGE_NOT_CHARTED);
    }
    addOfDose(patient, cautions);
  }

  /** What makes a clinician consider a lower dose. */
  private static void addOfDose(Patient patient, List<Caution> cautions) {
    Integer age = patient.ageYears();
    Double weight = patient.weightKg();
    if (age != null && age < OF_AGE_YEARS) {
      cautions.add(Caution.Known.CHILD);
    }
    if (age != null && age >= VERY_OLD_YEARS) {
      cautions.add(Caution.Known.VERY_OLD);
    }
    if (weight != null && weight < VERY_LIGHT_KG && (age == null || age >= OF_AGE_YEARS)) {
      cautions.add(Caution.Known.VERY_LIGHT);
    }
  }

  /**
   * What a person answers before anything of a visit is touched.
   *
   * @param held what the course leaves out
   */
  static List<StopQuestion> stopQuestions(Chart chart, Practice practice, List<HeldBack> held) {
    PatientRules rules = PatientRules.of(practice, chart.patient());
    List<StopQuestion> questions = new ArrayList<>();
    if (!rules.historyTaken()) {
      questions.add(StopQuestion.Known.TAKE_THE_HISTORY);
    }
    if (held.stream().anyMatch(one -> one.root() instanceof HeldBack.NoWeight)) {
      questions.add(StopQuestion.Known.WEIGH_THE_PATIENT);
    }
    for (AlertRule rule : rules.alerts()) {
      rule.stopQuestions()
          .forEach(text -> questions.add(new StopQuestion.OfAlert(rule.alert(), text)));
    }
    if (chart.patient().history().alerts().stream()
        .anyMatch(alert -> practice.alertRule(alert).isEmpty())) {
      questions.add(StopQuestion.Known.ASK_ABOUT_ALERTS);
    }
    return List.copyOf(questions);
  }

  /**
   * For one visit.
   *
   * @param day what its day gives, the visit counted in
   */
  static List<Caution> ofVisit(Visit visit, DayDose day, Chart chart, Practice practice) {
    List<Caution> cautions = new ArrayList<>();
    // A sheet is read by itself.
    PatientRules rules = PatientRules.of(practice, chart.patient());
    rules.alerts().stream()
        .flatMap(rule -> rule.cautions().stream())
        .map(Caution.AsWritten::new)
        .forEach(cautions::add);
    if (visit.sleeves() > 0) {
      cautions.add(Caution.Known.NEW_SLEEVE);
    }
    List<Tooth> deep = deepImplants(visit, chart);
    if (!deep.isEmpty()) {
      cautions.add(new Caution.OfWork(new WorkNote.Of(WorkNote.Kind.DEEP_IMPLANT, deep)));
    }
    for (GivenInjection given : visit.injections()) {
      Injection kind = practice.injections().get(given.injection());
      if (kind != null && kind.failureShare() != null) {
        cautions.add(
            new Caution.BlockMayFail(
                given.ref(),
                new Caution.Rescue(
                    given.agent(), given.ml(), day.holds(given, chart.patient(), practice))));
      }
      Agent agent = practice.agents().get(given.agent());
      if (kind != null
          && agent != null
          && kind.jaw() == Jaw.LOWER
          && kind.technique() == Technique.BLOCK
          && !kind.pulp().isEmpty()
          && agent.mgPerMl().value() >= STRONG_MG_PER_ML) {
        cautions.add(new Caution.StrongSolutionInBlock(given.ref(), given.agent()));
      }
    }
    for (AlertRule rule : rules.alerts()) {
      rule.warns()
          .forEach(
              (drug, text) -> {
                if (gives(visit, drug, practice)) {
                  cautions.add(new Caution.AsWritten(text));
                }
              });
    }
    if (visit.sequence().stream().anyMatch(Entry.Probe.class::isInstance)) {
      cautions.add(
          ChartFirst.of(chart, practice).holds()
              ? Caution.Known.ENDS_WITH_CHARTING
              : Caution.Known.PROVISIONAL_MINUTES);
    }
    addOfBleeding(visit, rules, practice, cautions);
    boolean vasoconstrictor =
        visit.injections().stream()
            .map(given -> practice.agents().get(given.agent()))
            .anyMatch(agent -> agent != null && !agent.vasoconstrictor().equals("none"));
    if (vasoconstrictor && rules.alerts().stream().anyMatch(AlertRule::measuresAfterFirst)) {
      cautions.add(Caution.Known.MEASURE_AFTER_FIRST_CARTRIDGE);
    }
    List<Tooth> sensitive = sensitiveAndAwake(visit, chart);
    if (!sensitive.isEmpty()) {
      cautions.add(new Caution.OfWork(new WorkNote.Of(WorkNote.Kind.ASK_IF_SENSITIVE, sensitive)));
    }
    List<Tooth> parted = partedBridge(visit, chart);
    if (!parted.isEmpty()) {
      cautions.add(new Caution.OfWork(new WorkNote.Of(WorkNote.Kind.PARTED_BRIDGE, parted)));
    }
    if (!visit.injections().isEmpty()) {
      addOfDose(chart.patient(), cautions);
      cautions.add(Caution.Known.NUMB_AFTERWARDS);
    }
    boolean delicate =
        visit.steps().stream()
            .map(Entry.Debride::teeth)
            .flatMap(List::stream)
            .map(chart::tooth)
            .flatMap(Optional::stream)
            .anyMatch(Cautions::delicate);
    if (delicate) {
      cautions.add(Caution.Known.DELICATE_SURFACES);
    }
    return List.copyOf(cautions);
  }

  /** What lies ready where an alert asks for a look, and a deep needle that comes before it. */
  private static void addOfBleeding(
      Visit visit, PatientRules rules, Practice practice, List<Caution> cautions) {
    if (rules.teethBeforeLook() == null) {
      return;
    }
    cautions.add(Caution.Known.HAEMOSTATIC_AT_HAND);
    List<Entry> sequence = visit.sequence();
    int look =
        sequence.stream()
            .filter(Entry.Look.class::isInstance)
            .mapToInt(sequence::indexOf)
            .findFirst()
            .orElse(-1);
    for (int i = 0; i < look; i++) {
      if (rules.blockBeforeLookSeconds() > 0
          && sequence.get(i) instanceof Entry.Inject inject
          && deepBlock(inject.injection(), practice)) {
        cautions.add(new Caution.BlockBeforeLook(inject.injection()));
      }
    }
  }

  private static boolean deepBlock(InjectionRef ref, Practice practice) {
    Injection kind = practice.injections().get(ref.injection());
    return kind != null && kind.deepBlock();
  }

  /** Sensitive teeth that the visit works on and never numbs. */
  private static List<Tooth> sensitiveAndAwake(Visit visit, Chart chart) {
    SortedSet<Tooth> teeth = new TreeSet<>();
    visit.steps().stream()
        .filter(step -> !step.needsNumb())
        .flatMap(step -> step.teeth().stream())
        .filter(tooth -> chart.tooth(tooth).filter(one -> one.has(Feature.SENSITIVE)).isPresent())
        .forEach(teeth::add);
    visit.steps().stream()
        .filter(Entry.Debride::needsNumb)
        .forEach(step -> teeth.removeAll(step.teeth()));
    return List.copyOf(teeth);
  }

  /** Teeth of the gross pass and their neighbours in other visits that a calculus bridge joins. */
  private static List<Tooth> partedBridge(Visit visit, Chart chart) {
    SortedSet<Tooth> here = new TreeSet<>();
    visit.steps().stream()
        .filter(step -> step.pass() == Pass.GROSS)
        .flatMap(step -> step.teeth().stream())
        .forEach(here::add);
    SortedSet<Tooth> parted = new TreeSet<>();
    for (Tooth tooth : here) {
      for (Tooth beside : neighbours(tooth)) {
        if (!here.contains(beside) && chart.bridged(tooth, beside)) {
          parted.addAll(List.of(tooth, beside));
        }
      }
    }
    return List.copyOf(parted);
  }

  /** Beside it in its quadrant; of a central incisor the other one across the midline. */
  private static List<Tooth> neighbours(Tooth tooth) {
    Quadrant quadrant = tooth.quadrant();
    Tooth mesial =
        tooth.position() > 1
            ? new Tooth(quadrant, tooth.position() - 1)
            : new Tooth(
                Quadrant.of(quadrant.jaw(), quadrant.side() == Side.RIGHT ? Side.LEFT : Side.RIGHT),
                1);
    return tooth.position() < 8
        ? List.of(mesial, new Tooth(quadrant, tooth.position() + 1))
        : List.of(mesial);
  }

  /**
   * Says in each visit which areas it leaves with deposit for a later one.
   *
   * @param held what is left for after the course, of which only a new chart is awaited
   */
  static void addLeftOpen(List<Visit> visits, List<HeldBack> held) {
    List<AreaPass> afterwards =
        held.stream()
            .filter(one -> one.reason() instanceof HeldBack.AwaitsChart)
            .map(one -> new AreaPass(one.area(), one.pass()))
            .toList();
    for (int i = 0; i < visits.size(); i++) {
      SortedSet<AreaRef> begun = areas(visits.subList(0, i + 1));
      List<AreaPass> waiting =
          Stream.concat(
                  visits.subList(i + 1, visits.size()).stream()
                      .flatMap(visit -> visit.steps().stream())
                      .map(step -> new AreaPass(step.area(), step.pass())),
                  afterwards.stream())
              .filter(one -> begun.contains(one.area()))
              .distinct()
              .sorted(Comparator.comparing(AreaPass::area).thenComparing(AreaPass::pass))
              .toList();
      if (!waiting.isEmpty()) {
        List<Caution> cautions = new ArrayList<>(visits.get(i).cautions());
        cautions.add(
            new Caution.LeftOpen(
                waiting.stream().map(AreaPass::area).distinct().toList(), waiting));
        visits.set(i, visits.get(i).withCautions(cautions));
      }
    }
  }

  private static SortedSet<AreaRef> areas(List<Visit> visits) {
    SortedSet<AreaRef> areas = new TreeSet<>();
    visits.forEach(visit -> areas.addAll(visit.areas()));
    return areas;
  }

  private static boolean gives(Visit visit, String drug, Practice practice) {
    return visit.injections().stream()
        .map(given -> practice.agents().get(given.agent()))
        .anyMatch(agent -> agent != null && agent.drug().equals(drug));
  }

  private static List<Tooth> deepImplants(Visit visit, Chart chart) {
    List<Tooth> teeth = visit.steps().stream().flatMap(step -> step.teeth().stream()).toList();
    return ChartSigns.of(chart).implants().stream()
        .map(ChartSigns.DeepImplant::tooth)
        .filter(teeth::contains)
        .toList();
  }

  private static boolean delicate(ToothChart tooth) {
    return tooth.has(Feature.RESTORATION_MARGIN) || tooth.has(Feature.DEMINERALISED);
  }
}
