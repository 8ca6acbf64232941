package quadrille.plan.course;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * What to lay out for one or more visits. Nothing is shared between visits: each has its own
 * sterile set, its own cartridges and its own sleeve.
 *
 * @param sterileSets one a visit
 * @param inserts by name, in the order first used: how many sterile ones
 * @param sleeves new implant sleeves
 * @param cartridges opened, by the name of the agent, in alphabetical order; where a visit gives
 *     several agents, which a plan does not part, under all their names
 * @param ml injected, by the same names
 * @param gelCartridges of pocket gel, opened: whole ones, a visit's own
 */
public record Kit(
    int sterileSets,
    Map<String, Integer> inserts,
    int sleeves,
    SortedMap<String, Integer> cartridges,
    SortedMap<String, Double> ml,
    int gelCartridges) {

  /** A gel cartridge used up but for this share needs no second one. */
  private static final double SLACK = 1e-9;

  public Kit {
    inserts = Collections.unmodifiableMap(new LinkedHashMap<>(inserts));
    cartridges = Collections.unmodifiableSortedMap(new TreeMap<>(cartridges));
    ml = Collections.unmodifiableSortedMap(new TreeMap<>(ml));
  }

  /** The kit of visits, of one course or of several. */
  public static Kit of(List<Visit> visits) {
    Map<String, Integer> inserts = new LinkedHashMap<>();
    SortedMap<String, Integer> cartridges = new TreeMap<>();
    SortedMap<String, Double> ml = new TreeMap<>();
    int sleeves = 0;
    int gel = 0;
    for (Visit visit : visits) {
      inserts(visit).forEach(insert -> inserts.merge(insert, 1, Integer::sum));
      sleeves += visit.sleeves();
      gel += (int) Math.ceil(visit.gelCartridges() - SLACK);
      if (visit.cartridges() > 0 || !visit.injections().isEmpty()) {
        String agents = agents(visit);
        cartridges.merge(agents, visit.cartridges(), Integer::sum);
        ml.merge(
            agents, visit.injections().stream().mapToDouble(GivenInjection::ml).sum(), Double::sum);
      }
    }
    return new Kit(visits.size(), inserts, sleeves, cartridges, ml, gel);
  }

  /** The inserts of a visit: those of its tray, and any that its steps use beside them. */
  public static List<String> inserts(Visit visit) {
    Set<String> inserts = new LinkedHashSet<>(visit.tray());
    visit.steps().forEach(step -> inserts.add(step.insert()));
    return List.copyOf(inserts);
  }

  /** Inserts that a visit's steps use and its tray lacks; none in a plan that passes its audit. */
  public static List<String> missingFromTray(Visit visit) {
    return inserts(visit).stream().filter(insert -> !visit.tray().contains(insert)).toList();
  }

  private static String agents(Visit visit) {
    List<String> names =
        visit.injections().stream().map(GivenInjection::agent).distinct().sorted().toList();
    return names.isEmpty() ? "agent not named" : String.join(" and ", names);
  }
}
