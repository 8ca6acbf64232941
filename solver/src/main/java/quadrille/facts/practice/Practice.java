package quadrille.facts.practice;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import quadrille.document.Withers;
import quadrille.facts.chart.Alert;

/**
 * Everything that a practice may change. Maps keep the order of the file.
 *
 * @param contact how a patient reaches it
 * @param inserts owned inserts by name
 * @param selection the insert selection table, in order
 * @param frame what stands around the work of a visit
 * @param agents by name
 * @param preferredAgents names, best first; only these are given
 * @param ruleSet which maximum doses hold
 * @param epinephrineCapMg a visit, for a healthy patient
 * @param injections by name
 * @param alerts what each alert does
 * @param codeHint what the desk is told about codes
 */
@Withers
public record Practice(
    String name,
    Contact contact,
    Appointments appointments,
    Map<String, Insert> inserts,
    PassRules passes,
    List<SelectionRule> selection,
    Minutes minutes,
    Frame frame,
    Numbing numbing,
    Map<String, Agent> agents,
    List<String> preferredAgents,
    RuleSet ruleSet,
    Figure epinephrineCapMg,
    Map<String, Injection> injections,
    Gel gel,
    Map<Alert, AlertRule> alerts,
    Weights weights,
    CodeHint codeHint)
    implements PracticeBuilder.With {

  public Practice {
    inserts = Collections.unmodifiableMap(new LinkedHashMap<>(inserts));
    preferredAgents = List.copyOf(preferredAgents);
  }

  public Optional<AlertRule> alertRule(Alert alert) {
    return Optional.ofNullable(alerts.get(alert));
  }
}
