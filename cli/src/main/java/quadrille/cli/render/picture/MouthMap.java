package quadrille.cli.render.picture;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.Words;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Half;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.ToothStatus;
import quadrille.facts.practice.Pass;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.Visit;
import quadrille.plan.course.WatchSite;
import quadrille.treatment.record.Extent;

/**
 * Both arches as rings of areas. An area holds one band for each pass that is due in it, the first
 * pass outermost, in the colour of its visit; so an area whose passes fall into different visits
 * shows them all. Passes side by side that one visit does share a plate with its number. Teeth are
 * numbers around the ring.
 *
 * @param bands each area once for each of its passes
 * @param plates what is said of the bands, passes of one visit together
 * @param plains areas without a band
 * @param numbers the charted teeth
 * @param marks implants, sites to watch and teeth due for extraction
 * @param title what the picture is
 * @param description what the picture shows, in words
 */
public record MouthMap(
    List<Band> bands,
    List<Plate> plates,
    List<Plain> plains,
    List<Label> numbers,
    List<Mark> marks,
    String title,
    String description) {

  private static final double NUMBERS = Arch.OUTER + 13;
  private static final double MARKS = Arch.OUTER + 38;
  private static final double MARKS_APART = 3.8;

  /** Height of a line of a plate. */
  private static final int LINE = 15;

  public MouthMap {
    bands = List.copyOf(bands);
    plates = List.copyOf(plates);
    plains = List.copyOf(plains);
    numbers = List.copyOf(numbers);
    marks = List.copyOf(marks);
  }

  /**
   * One pass of one area.
   *
   * @param area its name in ISO 3950 codes
   * @param pass its word in the plan
   * @param visit its visit's number; 0 where it is held back
   * @param path the outline
   * @param extent how far it has come; null on the map of a plan
   */
  public record Band(String area, String pass, int visit, String path, @Nullable Extent extent) {

    /** How it is coloured. */
    public String styleClass() {
      return visit == 0 ? "held" : VisitColour.styleClass(visit);
    }

    /** How far it has come, as a style class; empty on the map of a plan. */
    public String extentClass() {
      return MouthMap.extentClass(extent);
    }

    /** Whether it is part done. */
    public boolean striped() {
      return extent == Extent.PART_DONE;
    }
  }

  /**
   * What is said of bands side by side.
   *
   * @param at the middle
   * @param turn how far its text is turned, in degrees
   * @param lines what they are, and in the last one their visit; one line where there is no room
   */
  public record Plate(
      String area, Point at, String turn, List<String> lines, @Nullable Extent extent) {

    private static final double LETTER = 6.9;

    public Plate {
      lines = List.copyOf(lines);
    }

    /** How wide a plate the text needs. */
    public int width() {
      int letters = lines.stream().mapToInt(String::length).max().orElse(0);
      return (int) Math.round(12 + LETTER * letters);
    }

    /** How high. */
    public int height() {
      return lines.size() == 1 ? 19 : 6 + LINE * lines.size();
    }

    /** The base line of a text, by its index. */
    public int base(int line) {
      return LINE * line + 10 - LINE * lines.size() / 2 + (lines.size() == 1 ? 2 : 0);
    }

    /** How far it has come, as a style class; empty on the map of a plan. */
    public String extentClass() {
      return MouthMap.extentClass(extent);
    }
  }

  private static String extentClass(@Nullable Extent extent) {
    return extent == null ? "" : " " + extent.word().replace(' ', '-');
  }

  /** A half quadrant in which there is nothing to do, or nothing at all. */
  public record Plain(String area, String path, Point at, String turn, String word) {}

  /** A short text. */
  public record Label(Point at, String text) {}

  /**
   * A sign beside a tooth.
   *
   * @param kind {@code implant}, {@code watch} or {@code extraction}
   */
  public record Mark(String tooth, String kind, Point at) {}

  /** The map of a course. */
  public static MouthMap of(Course course, Chart chart) {
    List<Work> work = new ArrayList<>();
    for (Visit visit : course.visits()) {
      for (Entry.Debride step : visit.steps()) {
        work.add(new Work(step.area(), step.teeth(), step.pass(), visit.number(), null));
      }
    }
    return new Drawing(course, chart, work)
        .map("Map of the mouth: which area is treated in which visit");
  }

  /**
   * The map of a course under way.
   *
   * @param course the plan that holds, whose work held back and sites to watch are drawn
   * @param work of visits that took place and of those to come
   */
  public static MouthMap of(Course course, Chart chart, List<Work> work) {
    return new Drawing(course, chart, work).map("Map of the mouth: what is done and what is left");
  }

  /**
   * Work of one visit.
   *
   * @param visit its number, 1 or more
   * @param extent how far it has come; null where the map is of a plan
   */
  public record Work(
      AreaRef area, List<Tooth> teeth, Pass pass, int visit, @Nullable Extent extent) {

    public Work {
      teeth = List.copyOf(teeth);
    }
  }

  /** A stretch of a half quadrant, first to last position. */
  private record Stretch(Quadrant quadrant, Half half, int first) {

    static Stretch of(AreaRef area) {
      Tooth front = area.to();
      return new Stretch(
          area.quadrant(), area.half(), front == null ? begin(area.half()) : front.position());
    }

    static int begin(Half half) {
      return half == Half.POSTERIOR ? 4 : 1;
    }

    int end() {
      return half == Half.POSTERIOR ? 9 : 4;
    }

    boolean sameHalf(Stretch other) {
      return quadrant == other.quadrant && half == other.half;
    }
  }

  private static final class Drawing {
    private final Course course;
    private final Chart chart;

    /** For each area, its passes and their visits. */
    private final Map<AreaRef, SortedMap<Pass, SortedSet<Integer>>> work = new LinkedHashMap<>();

    private final Map<AreaRef, Stretch> stretches = new LinkedHashMap<>();

    private final Map<Lane, Extent> extents = new LinkedHashMap<>();

    /** One band. */
    private record Lane(AreaRef area, Pass pass, int visit) {}

    Drawing(Course course, Chart chart, List<Work> all) {
      this.course = course;
      this.chart = chart;
      for (Work one : all) {
        add(one.area(), one.pass(), one.visit());
        if (one.extent() != null) {
          extents.merge(new Lane(one.area(), one.pass(), one.visit()), one.extent(), Drawing::both);
        }
      }
      for (HeldBack held : course.heldBack()) {
        hold(held);
      }
    }

    private static Extent both(Extent one, Extent other) {
      return one == other ? one : Extent.PART_DONE;
    }

    private void add(AreaRef area, Pass pass, int visit) {
      stretches.computeIfAbsent(area, Stretch::of);
      work.computeIfAbsent(area, name -> new TreeMap<>())
          .computeIfAbsent(pass, p -> new TreeSet<>())
          .add(visit);
    }

    /** Work held back is drawn where no visit has any of that pass. */
    private void hold(HeldBack held) {
      if (!work.getOrDefault(held.area(), new TreeMap<>()).containsKey(held.pass())) {
        add(held.area(), held.pass(), 0);
      }
    }

    MouthMap map(String title) {
      List<Band> bands = new ArrayList<>();
      List<Plate> plates = new ArrayList<>();
      work.forEach((area, passes) -> draw(bands, plates, area, passes));
      return new MouthMap(bands, plates, plains(), numbers(), marks(), title, description());
    }

    private void draw(
        List<Band> bands,
        List<Plate> plates,
        AreaRef area,
        SortedMap<Pass, SortedSet<Integer>> passes) {
      Stretch stretch = stretches.get(area);
      if (stretch == null) {
        return;
      }
      List<Lane> lanes = new ArrayList<>();
      passes.forEach(
          (pass, visits) -> visits.forEach(visit -> lanes.add(new Lane(area, pass, visit))));
      Arch arch = new Arch(stretch.quadrant());
      double thick = (Arch.OUTER - Arch.INNER) / lanes.size();
      double from = Arch.start(firstOf(stretch));
      double to = Arch.start(lastOf(stretch) + 1);
      double middle = (from + to) / 2;
      int first = 0;
      for (int i = 0; i < lanes.size(); i++) {
        Lane lane = lanes.get(i);
        double outer = Arch.OUTER - i * thick;
        bands.add(
            new Band(
                area.toString(),
                lane.pass().word(),
                lane.visit(),
                arch.piece(from, to, outer - thick, outer),
                extents.get(lane)));
        if (i + 1 == lanes.size() || !together(lane, lanes.get(i + 1))) {
          List<Lane> said = lanes.subList(first, i + 1);
          plates.add(
              new Plate(
                  area.toString(),
                  arch.at(middle, Arch.OUTER - (first + i + 1) * thick / 2),
                  arch.turn(middle),
                  lines(said, said.size() * thick),
                  extents.get(lane)));
          first = i + 1;
        }
      }
    }

    /** Two passes a line and the visit below them; all on one line where the bands are thin. */
    private static List<String> lines(List<Lane> said, double thick) {
      List<String> passes = said.stream().map(lane -> word(lane.pass())).toList();
      int visit = said.get(0).visit();
      String when = visit == 0 ? "held back" : "visit " + visit;
      if (thick < 12 + 2 * LINE) {
        return List.of(String.join(", ", passes) + " · " + when);
      }
      List<String> lines = new ArrayList<>();
      for (int i = 0; i < passes.size(); i += 2) {
        boolean more = i + 2 < passes.size();
        lines.add(
            String.join(", ", passes.subList(i, Math.min(i + 2, passes.size())))
                + (more ? "," : ""));
      }
      lines.add(when);
      return lines;
    }

    private boolean together(Lane one, Lane other) {
      return one.visit() == other.visit() && Objects.equals(extents.get(one), extents.get(other));
    }

    /** The foremost part of a half quadrant that was cut reaches to its front. */
    private int firstOf(Stretch stretch) {
      boolean foremost =
          stretches.values().stream()
              .noneMatch(other -> other.sameHalf(stretch) && other.first() < stretch.first());
      return foremost ? Stretch.begin(stretch.half()) : stretch.first();
    }

    /** A part reaches back to the next part, so that the ring has no hole where teeth are lost. */
    private int lastOf(Stretch stretch) {
      return stretches.values().stream()
              .filter(other -> other.sameHalf(stretch) && other.first() > stretch.first())
              .mapToInt(Stretch::first)
              .min()
              .orElse(stretch.end())
          - 1;
    }

    private List<Plain> plains() {
      List<AreaRef> standing = Area.of(chart).stream().map(Area::ref).toList();
      List<Plain> plains = new ArrayList<>();
      for (Quadrant quadrant : Quadrant.values()) {
        for (Half side : Half.values()) {
          AreaRef area = AreaRef.whole(quadrant, side);
          Stretch half = Stretch.of(area);
          if (stretches.values().stream().noneMatch(half::sameHalf)) {
            Arch arch = new Arch(quadrant);
            double from = Arch.start(half.first());
            double to = Arch.start(half.end());
            double middle = (from + to) / 2;
            plains.add(
                new Plain(
                    area.toString(),
                    arch.piece(from, to, Arch.INNER, Arch.OUTER),
                    arch.at(middle, (Arch.INNER + Arch.OUTER) / 2),
                    arch.turn(middle),
                    standing.contains(area) ? "nothing due" : "no teeth"));
          }
        }
      }
      return plains;
    }

    private List<Label> numbers() {
      return chart.teeth().stream()
          .filter(tooth -> tooth.status() != ToothStatus.MISSING)
          .map(ToothChart::tooth)
          .map(tooth -> new Label(place(tooth, NUMBERS, 0), chart.numbering().name(tooth)))
          .toList();
    }

    private List<Mark> marks() {
      SortedSet<Tooth> watched = watched();
      List<Mark> marks = new ArrayList<>();
      for (Tooth tooth : Tooth.values()) {
        List<String> kinds = new ArrayList<>();
        Optional<ToothChart> charted = chart.tooth(tooth);
        if (charted.isPresent() && charted.get().implant()) {
          kinds.add("implant");
        }
        if (watched.contains(tooth)) {
          kinds.add("watch");
        }
        if (charted.isPresent() && charted.get().status() == ToothStatus.PLANNED_EXTRACTION) {
          kinds.add("extraction");
        }
        for (int i = 0; i < kinds.size(); i++) {
          double shift = (i - (kinds.size() - 1) / 2.0) * MARKS_APART;
          marks.add(
              new Mark(chart.numbering().name(tooth), kinds.get(i), place(tooth, MARKS, shift)));
        }
      }
      return marks;
    }

    private static Point place(Tooth tooth, double radius, double shift) {
      return new Arch(tooth.quadrant()).at(Arch.middle(tooth.position()) + shift, radius);
    }

    private SortedSet<Tooth> watched() {
      SortedSet<Tooth> teeth = new TreeSet<>();
      for (Visit visit : course.visits()) {
        for (WatchSite site : visit.watch()) {
          if (site instanceof WatchSite.OfTooth one) {
            teeth.add(one.tooth());
          }
        }
      }
      return teeth;
    }

    private String description() {
      SortedSet<Integer> visits = new TreeSet<>();
      work.values().forEach(passes -> passes.values().forEach(visits::addAll));
      visits.remove(0);
      List<String> sentences = new ArrayList<>();
      for (int visit : visits) {
        List<String> areas = new ArrayList<>();
        work.forEach(
            (area, passes) -> {
              List<String> words =
                  passes.entrySet().stream()
                      .filter(pass -> pass.getValue().contains(visit))
                      .map(pass -> said(new Lane(area, pass.getKey(), visit)))
                      .toList();
              if (!words.isEmpty()) {
                areas.add(Words.area(area, chart) + " (" + String.join(", ", words) + ")");
              }
            });
        sentences.add("Visit " + visit + ": " + String.join("; ", areas) + ".");
      }
      return String.join(" ", sentences);
    }

    private String said(Lane lane) {
      @Nullable Extent extent = extents.get(lane);
      return lane.pass().word() + (extent == null ? "" : " " + extent.word());
    }

    private static String word(Pass pass) {
      return switch (pass) {
        case GROSS -> "gross";
        case FINE -> "fine";
        case FINISHING -> "finish";
        case IMPLANT_CARE -> "implant";
      };
    }
  }
}
