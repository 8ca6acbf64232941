package quadrille.facts.practice;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import quadrille.facts.chart.Alert;

/**
 * Everything that a practice may change. Maps keep the order of the file.
 *
 * @param contact how a patient reaches it
 * @param inserts owned inserts by name
 * @param selection the insert selection table, in order
 * @param agents by name
 * @param preferredAgents names, best first; only these are given
 * @param ruleSet which maximum doses hold
 * @param epinephrineCapMg a visit, for a healthy patient
 * @param injections by name
 * @param alerts what each alert does
 * @param codeHint what the desk is told about codes
 */
public record Practice(
    String name,
    Contact contact,
    Appointments appointments,
    Map<String, Insert> inserts,
    PassRules passes,
    List<SelectionRule> selection,
    Minutes minutes,
    Numbing numbing,
    Map<String, Agent> agents,
    List<String> preferredAgents,
    RuleSet ruleSet,
    Figure epinephrineCapMg,
    Map<String, Injection> injections,
    Gel gel,
    Map<Alert, AlertRule> alerts,
    Weights weights,
    CodeHint codeHint) {

  /** The same practice with other appointments. */
  public Practice with(Appointments other) {
    return new Practice(
        name,
        contact,
        other,
        inserts,
        passes,
        selection,
        minutes,
        numbing,
        agents,
        preferredAgents,
        ruleSet,
        epinephrineCapMg,
        injections,
        gel,
        alerts,
        weights,
        codeHint);
  }

  /** The same practice with other times. */
  public Practice with(Minutes other) {
    return new Practice(
        name,
        contact,
        appointments,
        inserts,
        passes,
        selection,
        other,
        numbing,
        agents,
        preferredAgents,
        ruleSet,
        epinephrineCapMg,
        injections,
        gel,
        alerts,
        weights,
        codeHint);
  }

  /** The same practice with other numbing. */
  public Practice with(Numbing other) {
    return new Practice(
        name,
        contact,
        appointments,
        inserts,
        passes,
        selection,
        minutes,
        other,
        agents,
        preferredAgents,
        ruleSet,
        epinephrineCapMg,
        injections,
        gel,
        alerts,
        weights,
        codeHint);
  }

  /** The same practice with other agents preferred. */
  public Practice withPreferredAgents(List<String> other) {
    return new Practice(
        name,
        contact,
        appointments,
        inserts,
        passes,
        selection,
        minutes,
        numbing,
        agents,
        List.copyOf(other),
        ruleSet,
        epinephrineCapMg,
        injections,
        gel,
        alerts,
        weights,
        codeHint);
  }

  /** The same practice owning other inserts, in the order given. */
  public Practice withInserts(Map<String, Insert> other) {
    return new Practice(
        name,
        contact,
        appointments,
        Collections.unmodifiableMap(new LinkedHashMap<>(other)),
        passes,
        selection,
        minutes,
        numbing,
        agents,
        preferredAgents,
        ruleSet,
        epinephrineCapMg,
        injections,
        gel,
        alerts,
        weights,
        codeHint);
  }

  public Optional<AlertRule> alertRule(Alert alert) {
    return Optional.ofNullable(alerts.get(alert));
  }
}
