package quadrille.facts.practice;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.DoubleStream;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Wish;

/**
 * What practice and patient allow together: the practice's figures with those of all the patient's
 * alerts laid over them, the stricter of each.
 *
 * @param historyTaken whether somebody has asked for the medical history; where nobody has, no
 *     anaesthetic is given, and the other values are those of a patient without alerts
 * @param alerts the rules of the patient's alerts and of those they include, in the order of {@link
 *     Alert}
 * @param epinephrineCapMg a visit
 * @param longestVisitMinutes that practice, patient and alerts allow
 * @param minGapDays between visits, 0 for all on one day
 * @param maxGapDays between visits, never below the fewest
 * @param visitPriceSeconds what each visit costs beside its time; 0 where nothing asks for it
 * @param injectionWeightFactor on the cost weight of each injection; 1 where nothing asks for it
 * @param blockPriceSeconds what each deep block costs more than an infiltration; 0 where nothing
 *     asks for it
 * @param blockBeforeLookSeconds what it costs more where a deep block is given before the look at
 *     the bleeding; 0 where nothing asks for it
 * @param teethBeforeLook so many teeth at most are worked on, all passes and both aspects, before
 *     somebody looks at the bleeding; null where nobody need
 * @param numbFirst whether an alert or a wish asks that nothing is touched before it is numb
 * @param byHand whether the work is done by hand, without the ultrasonic unit
 * @param prefersGel whether pocket gel is to be had in place of injections where it serves
 * @param forbidsOneDay whether the course may not be done within 24 hours
 * @param forbidsRinses agents that no rinse may hold, sorted
 */
public record PatientRules(
    Practice practice,
    Patient patient,
    boolean historyTaken,
    List<AlertRule> alerts,
    double epinephrineCapMg,
    int longestVisitMinutes,
    int minGapDays,
    int maxGapDays,
    double visitPriceSeconds,
    double injectionWeightFactor,
    double blockPriceSeconds,
    double blockBeforeLookSeconds,
    @Nullable Integer teethBeforeLook,
    boolean numbFirst,
    boolean byHand,
    boolean prefersGel,
    boolean forbidsOneDay,
    Set<String> forbidsRinses) {

  /** What holds for a patient at a practice. */
  public static PatientRules of(Practice practice, Patient patient) {
    List<AlertRule> alerts = alerts(practice, patient);
    Appointments appointments = practice.appointments();
    double longest =
        least(alerts, AlertRule::longestVisitMinutes, appointments.longestVisitMinutes().value());
    Integer own = patient.longestVisitMinutes();
    boolean severalDays = any(alerts, AlertRule::forbidsOneDay);
    double minGap =
        most(
            alerts,
            AlertRule::minGapDays,
            Math.max(appointments.gapMinDays().value(), severalDays ? 1 : 0));
    double maxGap = least(alerts, AlertRule::maxGapDays, appointments.gapMaxDays().value());
    double look = least(alerts, AlertRule::teethBeforeLook, Double.POSITIVE_INFINITY);
    Set<String> rinses = new TreeSet<>();
    alerts.forEach(rule -> rinses.addAll(rule.forbidsRinses()));
    return new PatientRules(
        practice,
        patient,
        patient.history().taken(),
        alerts,
        least(alerts, AlertRule::epinephrineCapMg, practice.epinephrineCapMg().value()),
        (int) Math.floor(own == null ? longest : Math.min(longest, own)),
        (int) Math.round(minGap),
        (int) Math.round(Math.max(minGap, maxGap)),
        most(alerts, AlertRule::visitPriceSeconds, 0),
        figures(alerts, AlertRule::injectionWeightFactor).max().orElse(1),
        most(alerts, AlertRule::blockPriceSeconds, 0),
        most(alerts, AlertRule::blockBeforeLookSeconds, 0),
        look == Double.POSITIVE_INFINITY ? null : (int) Math.round(look),
        any(alerts, AlertRule::numbFirst) || must(patient, Wish.NumbFirst.class),
        any(alerts, AlertRule::byHand) || must(patient, Wish.ByHand.class),
        any(alerts, AlertRule::prefersGel),
        severalDays,
        Collections.unmodifiableSet(rinses));
  }

  /**
   * Days between two visits that no deadline goes below: those of an alert, and 1 where visits lie
   * on several days. The practice's own shortest gap gives way.
   */
  public int leastGapDays() {
    return (int) Math.round(most(alerts, AlertRule::minGapDays, Math.min(1, minGapDays)));
  }

  /**
   * Days between two visits that no leave to let gaps grow goes above: those of an alert; empty
   * where no alert has any.
   */
  public OptionalInt mostGapDays() {
    double most = least(alerts, AlertRule::maxGapDays, Double.POSITIVE_INFINITY);
    return most == Double.POSITIVE_INFINITY
        ? OptionalInt.empty()
        : OptionalInt.of((int) Math.round(Math.max(minGapDays, most)));
  }

  /** The patient's alerts, and those that they include. */
  public Set<Alert> standing() {
    return standing(practice, patient);
  }

  private static Set<Alert> standing(Practice practice, Patient patient) {
    Set<Alert> all = EnumSet.noneOf(Alert.class);
    patient.history().alerts().forEach(alert -> include(alert, practice, all));
    return Collections.unmodifiableSet(all);
  }

  /** The rules of those alerts. */
  private static List<AlertRule> alerts(Practice practice, Patient patient) {
    return standing(practice, patient).stream()
        .flatMap(alert -> practice.alertRule(alert).stream())
        .toList();
  }

  private static void include(Alert alert, Practice practice, Set<Alert> all) {
    if (all.add(alert)) {
      practice
          .alertRule(alert)
          .ifPresent(rule -> rule.includes().forEach(one -> include(one, practice, all)));
    }
  }

  private static DoubleStream figures(
      List<AlertRule> alerts, Function<AlertRule, @Nullable Figure> of) {
    return alerts.stream().map(of).filter(Objects::nonNull).mapToDouble(Figure::value);
  }

  private static double least(
      List<AlertRule> alerts, Function<AlertRule, @Nullable Figure> of, double otherwise) {
    return Math.min(otherwise, figures(alerts, of).min().orElse(otherwise));
  }

  private static double most(
      List<AlertRule> alerts, Function<AlertRule, @Nullable Figure> of, double otherwise) {
    return Math.max(otherwise, figures(alerts, of).max().orElse(otherwise));
  }

  private static boolean any(List<AlertRule> alerts, Predicate<AlertRule> of) {
    return alerts.stream().anyMatch(of);
  }

  /** The alerts for each visit of which an antibiotic cover is taken. */
  public List<Alert> covers() {
    return alerts.stream().filter(AlertRule::countsCovers).map(AlertRule::alert).toList();
  }

  private static boolean must(Patient patient, Class<? extends Wish.Ask> ask) {
    return patient.wishes().stream().anyMatch(wish -> wish.must() && ask.isInstance(wish.ask()));
  }

  /** What speaks against an agent for this patient, whatever the amount; empty where nothing. */
  public List<Objection> objections(Agent agent) {
    List<Objection> objections = unknowns();
    for (AlertRule rule : alerts) {
      for (String part : List.of(agent.drug(), agent.vasoconstrictor())) {
        if (rule.forbids().contains(part)) {
          objections.add(new Objection.Forbidden(rule.alert(), part));
        }
      }
      if (rule.forbidsAmides() && agent.amide()) {
        objections.add(new Objection.Forbidden(rule.alert(), Objection.Forbidden.AMIDES));
      }
    }
    Figure from = agent.fromAgeYears();
    if (from != null) {
      addTooYoung(from, objections);
    }
    return List.copyOf(objections);
  }

  /** What speaks against pocket gel for this patient, whatever the amount; empty where nothing. */
  public List<Objection> gelObjections() {
    Gel gel = practice.gel();
    List<Objection> objections = unknowns();
    if (!gel.owned()) {
      objections.add(new Objection.NotOwned(gel.name()));
    }
    addTooYoung(gel.fromAgeYears(), objections);
    for (AlertRule rule : alerts) {
      if (rule.forbidsGel() || rule.forbidsAmides()) {
        objections.add(new Objection.Forbidden(rule.alert(), gel.name()));
      }
      for (String drug : gel.drugs()) {
        if (rule.forbids().contains(drug)) {
          objections.add(new Objection.Forbidden(rule.alert(), drug));
        }
      }
    }
    return List.copyOf(objections);
  }

  private List<Objection> unknowns() {
    List<Objection> objections = new ArrayList<>();
    if (!historyTaken) {
      objections.add(new Objection.NoHistory());
    }
    if (patient.weightKg() == null) {
      objections.add(new Objection.NoWeight());
    }
    return objections;
  }

  private void addTooYoung(Figure from, List<Objection> objections) {
    Integer age = patient.ageYears();
    if (age == null || age < from.value()) {
      objections.add(new Objection.TooYoung(from.asInt(), age));
    }
  }
}
