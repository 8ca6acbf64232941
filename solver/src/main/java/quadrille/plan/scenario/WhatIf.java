package quadrille.plan.scenario;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import quadrille.document.Withers;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.History;
import quadrille.facts.practice.Appointments;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Insert;
import quadrille.facts.practice.Practice;

/**
 * Changed conditions, combinable. What the patient can sit through and what alerts cap goes on to
 * hold; all that may be changed of the patient is to be needle-averse.
 *
 * @param longestMinutes the practice's longest visit in minutes, 10 to 480; null as it is
 * @param withoutInserts names of owned inserts that are not to be used
 * @param agentFirst name of the agent to be tried first, one of the practice's table; null as it is
 * @param certainty share of visits that shall end inside their booked time, 0.001 to 0.999; null as
 *     it is
 * @param grossFirst whether the gross pass of the whole mouth comes before any fine pass
 * @param oneDay whether all visits are on one day, so that doses and sterile sets count over the
 *     day
 * @param trayHolds inserts that a tray holds, 1 to 100; null as it is
 * @param frontApart whether no front teeth are numbed across the midline
 * @param needleAverse whether the patient is averse to needles
 */
@Withers
public record WhatIf(
    @Nullable Integer longestMinutes,
    List<String> withoutInserts,
    @Nullable String agentFirst,
    @Nullable Double certainty,
    boolean grossFirst,
    boolean oneDay,
    @Nullable Integer trayHolds,
    boolean frontApart,
    boolean needleAverse)
    implements WhatIfBuilder.With {

  /** No change. */
  public static final WhatIf AS_IT_IS = new WhatIf(null, List.of(), null, null, false, false);

  private static final List<Integer> LONGEST = List.of(60, 75, 90, 105, 120);
  private static final double CERTAINTY = 0.9;
  private static final int MORE_INSERTS = 4;
  private static final int MOST_INSERTS = 100;
  private static final int LEAST_MINUTES = 10;
  private static final int MOST_MINUTES = 480;
  private static final double LEAST_CERTAINTY = 0.001;
  private static final double MOST_CERTAINTY = 0.999;

  public WhatIf {
    withoutInserts = List.copyOf(withoutInserts);
  }

  /** Conditions that leave the tray, the front teeth and the patient as they are. */
  public WhatIf(
      @Nullable Integer longestMinutes,
      List<String> withoutInserts,
      @Nullable String agentFirst,
      @Nullable Double certainty,
      boolean grossFirst,
      boolean oneDay) {
    this(
        longestMinutes,
        withoutInserts,
        agentFirst,
        certainty,
        grossFirst,
        oneDay,
        null,
        false,
        false);
  }

  /**
   * The settings that practices differ in most, each changed by itself; those only that change
   * something for this practice and mouth. Which, and how far: assumption.
   */
  public static List<WhatIf> settings(Chart chart, Practice practice) {
    List<WhatIf> all = new ArrayList<>();
    for (int minutes : LONGEST) {
      all.add(AS_IT_IS.withLongestMinutes(minutes));
    }
    int holds = practice.appointments().kitHolds().asInt();
    all.add(AS_IT_IS.withTrayHolds(Math.min(MOST_INSERTS, holds + MORE_INSERTS)));
    all.add(AS_IT_IS.withFrontApart(true));
    all.add(AS_IT_IS.withGrossFirst(true));
    all.add(AS_IT_IS.withCertainty(CERTAINTY));
    all.add(AS_IT_IS.withNeedleAverse(true));
    return all.stream()
        .filter(one -> one.faults(practice).isEmpty() && one.changes(chart, practice))
        .toList();
  }

  private boolean changes(Chart chart, Practice practice) {
    Appointments now = practice.appointments();
    Appointments then = applyTo(practice).appointments();
    return grossFirst
        || !applyTo(chart).equals(chart)
        || now.longestVisitMinutes().value() != then.longestVisitMinutes().value()
        || now.certainty().value() != then.certainty().value()
        || now.kitHolds().value() != then.kitHolds().value()
        || now.midlineInfiltration() != then.midlineInfiltration();
  }

  /** What is wrong with it for a practice, each with what is allowed; empty where nothing is. */
  public List<String> faults(Practice practice) {
    List<String> faults = new ArrayList<>();
    int unit = practice.appointments().unitMinutes().asInt();
    if (longestMinutes != null
        && (longestMinutes < Math.max(LEAST_MINUTES, unit) || longestMinutes > MOST_MINUTES)) {
      faults.add(
          "longest visit "
              + longestMinutes
              + ": must be "
              + Math.max(LEAST_MINUTES, unit)
              + " to "
              + MOST_MINUTES
              + " minutes");
    }
    for (String insert : withoutInserts) {
      if (!practice.inserts().containsKey(insert)) {
        faults.add(
            "insert \""
                + insert
                + "\": the practice has none of that name; it has "
                + String.join(", ", practice.inserts().keySet()));
      }
    }
    if (trayHolds != null && (trayHolds < 1 || trayHolds > MOST_INSERTS)) {
      faults.add("tray of " + trayHolds + ": must hold 1 to " + MOST_INSERTS + " inserts");
    }
    if (agentFirst != null && !practice.agents().containsKey(agentFirst)) {
      faults.add(
          "agent \""
              + agentFirst
              + "\": is not in the practice's table; there are "
              + String.join(", ", practice.agents().keySet()));
    }
    if (certainty != null && !(certainty >= LEAST_CERTAINTY && certainty <= MOST_CERTAINTY)) {
      faults.add(
          "certainty " + certainty + ": must be " + LEAST_CERTAINTY + " to " + MOST_CERTAINTY);
    }
    return faults;
  }

  /**
   * The practice under these conditions.
   *
   * @throws IllegalArgumentException if {@link #faults} has any
   */
  public Practice applyTo(Practice practice) {
    List<String> faults = faults(practice);
    if (!faults.isEmpty()) {
      throw new IllegalArgumentException("The what-if cannot be: " + String.join("; ", faults));
    }
    Appointments appointments = practice.appointments();
    if (longestMinutes != null) {
      appointments = appointments.withLongestVisitMinutes(figure(longestMinutes));
    }
    if (certainty != null) {
      appointments = appointments.withCertainty(figure(certainty));
    }
    if (trayHolds != null) {
      appointments = appointments.withKitHolds(figure(trayHolds));
    }
    if (frontApart) {
      appointments = appointments.withMidlineInfiltration(false);
    }
    if (oneDay) {
      appointments = appointments.withGapMinDays(figure(0)).withGapMaxDays(figure(0));
    }
    Practice changed = practice.withAppointments(appointments);
    if (agentFirst != null) {
      List<String> agents = new ArrayList<>(practice.preferredAgents());
      agents.remove(agentFirst);
      agents.add(0, agentFirst);
      changed = changed.withPreferredAgents(agents);
    }
    if (!withoutInserts.isEmpty()) {
      Map<String, Insert> inserts = new LinkedHashMap<>(practice.inserts());
      withoutInserts.forEach(inserts::remove);
      changed = changed.withInserts(inserts);
    }
    return changed;
  }

  /** The mouth under these conditions; a history that nobody has taken stays so. */
  public Chart applyTo(Chart chart) {
    History history = chart.patient().history();
    if (!needleAverse || !history.taken() || history.alerts().contains(Alert.NEEDLE_AVERSE)) {
      return chart;
    }
    Set<Alert> alerts = new TreeSet<>(history.alerts());
    alerts.add(Alert.NEEDLE_AVERSE);
    return chart.withPatient(chart.patient().withHistory(History.of(alerts)));
  }

  private static Figure figure(double value) {
    return new Figure(value, "what if");
  }
}
