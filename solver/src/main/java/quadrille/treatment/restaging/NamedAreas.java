package quadrille.treatment.restaging;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.plan.course.Course;
import quadrille.plan.course.HeldBack;

/**
 * The areas that plans of a course were cut into, so that what is left keeps the cuts. Earlier
 * names give way to later ones; teeth that none covers make areas of their own.
 */
final class NamedAreas {
  private static final Pattern PART =
      Pattern.compile("(U[RL]|L[RL]) (posterior|anterior)(?: ([0-9]{2})(?:-([0-9]{2}))?)?");

  private final List<Area> halves;
  private final List<Area> areas = new ArrayList<>();

  private NamedAreas(Chart chart) {
    this.halves = Area.of(chart);
  }

  /**
   * @param plans the latest first
   */
  static List<Area> of(Chart chart, List<Course> plans) {
    NamedAreas named = new NamedAreas(chart);
    for (Course plan : plans) {
      for (String name : names(plan)) {
        named.parse(name).ifPresent(named::add);
      }
    }
    named.addRest();
    named.areas.sort(Area.order());
    return List.copyOf(named.areas);
  }

  private static Set<String> names(Course plan) {
    Set<String> names = new LinkedHashSet<>();
    plan.visits().forEach(visit -> visit.steps().forEach(step -> names.add(step.area())));
    plan.heldBack().stream().map(HeldBack::area).forEach(names::add);
    return names;
  }

  private Optional<Area> parse(String name) {
    Matcher matcher = PART.matcher(name);
    if (!matcher.matches()) {
      return Optional.empty();
    }
    Quadrant quadrant = Quadrant.valueOf(matcher.group(1));
    boolean posterior = matcher.group(2).equals("posterior");
    Area half =
        halves.stream()
            .filter(area -> area.quadrant() == quadrant && area.posterior() == posterior)
            .findFirst()
            .orElse(null);
    if (half == null || matcher.group(3) == null) {
      return Optional.ofNullable(half);
    }
    String front = matcher.group(4) == null ? matcher.group(3) : matcher.group(4);
    List<Tooth> teeth =
        half.teeth().stream()
            .filter(tooth -> tooth.iso() >= Integer.parseInt(front))
            .filter(tooth -> tooth.iso() <= Integer.parseInt(matcher.group(3)))
            .toList();
    return teeth.isEmpty()
        ? Optional.empty()
        : Optional.of(new Area(name, quadrant, posterior, teeth));
  }

  private void add(Area area) {
    if (area.teeth().stream().noneMatch(this::covered)) {
      areas.add(area);
    }
  }

  private boolean covered(Tooth tooth) {
    return areas.stream().anyMatch(area -> area.teeth().contains(tooth));
  }

  /** Runs of neighbours that no area covers. */
  private void addRest() {
    for (Area half : halves) {
      List<Tooth> run = new ArrayList<>();
      List<Area> rest = new ArrayList<>();
      for (Tooth tooth : half.teeth()) {
        if (covered(tooth)) {
          endRun(half, run, rest);
        } else {
          run.add(tooth);
        }
      }
      endRun(half, run, rest);
      areas.addAll(rest);
    }
  }

  private static void endRun(Area half, List<Tooth> run, List<Area> rest) {
    if (run.isEmpty()) {
      return;
    }
    Tooth front = run.get(0);
    Tooth back = run.get(run.size() - 1);
    String name =
        run.equals(half.teeth())
            ? half.name()
            : half.name() + " " + (front.equals(back) ? front : back + "-" + front);
    rest.add(new Area(name, half.quadrant(), half.posterior(), run));
    run.clear();
  }
}
