package quadrille.plan.scenario;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import quadrille.facts.practice.Appointments;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Insert;
import quadrille.facts.practice.Practice;

/**
 * Changed conditions, combinable: nothing here touches the patient, so that what the patient can
 * sit through and what alerts cap goes on to hold.
 *
 * @param longestMinutes the practice's longest visit in minutes, 10 to 480; null as it is
 * @param withoutInserts names of owned inserts that are not to be used
 * @param agentFirst name of the agent to be tried first, one of the practice's table; null as it is
 * @param certainty share of visits that shall end inside their booked time, 0.001 to 0.999; null as
 *     it is
 * @param grossFirst whether the gross pass of the whole mouth comes before any fine pass
 * @param oneDay whether all visits are on one day, so that doses and sterile sets count over the
 *     day
 */
public record WhatIf(
    @Nullable Integer longestMinutes,
    List<String> withoutInserts,
    @Nullable String agentFirst,
    @Nullable Double certainty,
    boolean grossFirst,
    boolean oneDay) {

  /** No change. */
  public static final WhatIf AS_IT_IS = new WhatIf(null, List.of(), null, null, false, false);

  private static final int LEAST_MINUTES = 10;
  private static final int MOST_MINUTES = 480;
  private static final double LEAST_CERTAINTY = 0.001;
  private static final double MOST_CERTAINTY = 0.999;

  public WhatIf {
    withoutInserts = List.copyOf(withoutInserts);
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

  private static Figure figure(double value) {
    return new Figure(value, "what if");
  }
}
