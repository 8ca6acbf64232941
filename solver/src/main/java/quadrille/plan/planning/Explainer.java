package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import quadrille.facts.chart.Area;
import quadrille.plan.course.Course;
import quadrille.plan.staging.Staged;
import quadrille.plan.staging.Stager;

/** Says why each area went where it did, by trying each elsewhere. */
final class Explainer {
  private final Stager stager;

  Explainer(Stager stager) {
    this.stager = stager;
  }

  List<Explanation.Section> explain(Staged staged, Course course) {
    List<Explanation.Section> sections = new ArrayList<>();
    if (course.visits().size() > 1) {
      for (Area area : staged.staging().areas()) {
        sections.add(new Explanation.Section(area.ref().toString(), elsewhere(staged, area)));
      }
    }
    return sections;
  }

  private List<String> elsewhere(Staged staged, Area area) {
    List<String> lines = new ArrayList<>();
    Set<Integer> at = staged.visitsOf(area);
    lines.add("in visit " + words(at));
    for (int visit = 1; visit <= staged.layouts().size(); visit++) {
      if (at.equals(Set.of(visit))) {
        continue;
      }
      Staged other = stager.rate(staged.staging(), staged.setsWith(area, visit));
      lines.add("all of it in visit " + visit + " " + verdict(staged, other));
    }
    return lines;
  }

  private static String verdict(Staged staged, Staged other) {
    if (!other.feasible()) {
      return "would break " + String.join(", ", new LinkedHashSet<>(other.brokenRules()));
    }
    long more = other.seconds() - staged.seconds();
    StringBuilder terms = new StringBuilder();
    for (Map.Entry<String, Long> term : other.terms().entrySet()) {
      long change = term.getValue() - staged.terms().getOrDefault(term.getKey(), 0L);
      if (change != 0) {
        terms.append(terms.isEmpty() ? "" : ", ");
        terms.append(String.format(Locale.ROOT, "%s %+d", term.getKey(), change));
      }
    }
    return String.format(
        Locale.ROOT, "would cost %+d s%s", more, terms.isEmpty() ? "" : " (" + terms + ")");
  }

  private static String words(Set<Integer> visits) {
    return String.join(" and ", visits.stream().map(String::valueOf).toList());
  }
}
