package quadrille.treatment.recording;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import quadrille.document.Expected;
import quadrille.document.Faults;
import quadrille.document.Fields;
import quadrille.document.InvalidDocumentException;
import quadrille.document.JsonDocument;
import quadrille.document.JsonLayout;
import quadrille.document.Node;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Pass;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.Observation;
import quadrille.treatment.record.VisitRecordReader;

/**
 * A visit as it is run at the chair: what was ticked, and when. It is a file of its own until the
 * visit is recorded; the record follows from the ticks, with the minutes of each part.
 *
 * @param visit its number in the plan
 * @param plan tells the visit's order of work from any other; what was ticked holds for no other
 * @param date the day
 * @param clinician who works, by the practice's own reference
 * @param ticks by number, ascending; each number once, so that one that is sent again counts once
 */
public record RunningVisit(
    int visit, String plan, LocalDate date, String clinician, List<Tick> ticks) {

  /** What the document's {@code schema} must say. */
  public static final String SCHEMA = "quadrille/running-visit/1";

  private static final int MOST_TICKS = 2000;
  private static final int MOST_TEXT = 1000;
  private static final double MINUTE = 60;

  /** A step of which a part was done has half of it; the rest is staged again. */
  private static final double PART = 0.5;

  /** What is ticked. */
  public enum Kind {
    /** A stop question was answered; the text says how and by whom. */
    ANSWER,
    /** An entry of the plan's sequence is over, and was done as planned. */
    DONE,
    /** It is over, and about half of it was done. */
    PART,
    /** It is over, and was not done. */
    SKIP,
    /** An injection that was given did not numb what it should, and was given again. */
    AGAIN,
    /** What is left comes in another order. */
    ORDER,
    /** Something was found. */
    FOUND,
    PAUSE,
    RESUME,
    /** Something to remember. */
    NOTE,
    /** The last tick is taken back. */
    UNDO;

    /** As written. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /**
   * One tick.
   *
   * @param number 1, 2, 3 …
   * @param at when, by the clock at the chair
   * @param of which entry of the sequence, or which stop question, from 0; -1 for none
   * @param text may be empty
   * @param order the steps of work that were left, by their places in the sequence, in their new
   *     order; empty where it is none
   * @param found what was found; null where nothing was
   */
  public record Tick(
      int number,
      Instant at,
      Kind kind,
      int of,
      String text,
      List<Integer> order,
      @Nullable Observation found) {

    public Tick {
      order = List.copyOf(order);
    }

    /** The same with another order. */
    public Tick withOrder(List<Integer> other) {
      return new Tick(number, at, kind, of, text, other, found);
    }
  }

  /**
   * Another order that what was left has been put into.
   *
   * @param over the ticks by which entries of the plan's sequence were over by then, in their
   *     order; an injection that was given again is over once more
   * @param steps places of the steps of work that were left, in their new order
   * @param elapsed since the first tick, pauses included: numbness does not pause
   */
  public record Order(List<Tick> over, List<Integer> steps, Duration elapsed) {
    public Order {
      over = List.copyOf(over);
      steps = List.copyOf(steps);
    }
  }

  /** What closes a row of the visit, and so waits for the stop questions. */
  private static final Set<Kind> OVER = EnumSet.of(Kind.DONE, Kind.PART, Kind.SKIP, Kind.AGAIN);

  public RunningVisit {
    TreeMap<Integer, Tick> once = new TreeMap<>();
    ticks.forEach(tick -> once.putIfAbsent(tick.number(), tick));
    ticks = List.copyOf(once.values());
  }

  /** Begins a visit. */
  public static RunningVisit begin(Visit planned, LocalDate date, String clinician) {
    return new RunningVisit(planned.number(), mark(planned), date, clinician, List.of());
  }

  /** Whether it is run by this plan: ticks name places in its order of work. */
  public boolean isOf(Visit planned) {
    return visit == planned.number() && plan.equals(mark(planned));
  }

  private static String mark(Visit planned) {
    List<Object> marks = new ArrayList<>(planned.stopQuestions());
    Map<Integer, GivenInjection> injections = injections(planned);
    List<Entry> sequence = planned.sequence();
    for (int i = 0; i < sequence.size(); i++) {
      Entry entry = sequence.get(i);
      marks.add(entry.kind().word());
      if (entry instanceof Entry.Debride step) {
        marks.add(step(step, Numbering.ISO3950));
      } else if (injections.containsKey(i)) {
        marks.add(given(injections.get(i), Numbering.ISO3950));
      }
    }
    return String.valueOf(Expected.bytes(marks.toString().getBytes(UTF_8)).revision());
  }

  /**
   * Reads a visit that is being run.
   *
   * @param numbering of the chart
   * @throws InvalidDocumentException with every fault
   */
  public static RunningVisit read(String source, String text, Numbering numbering)
      throws InvalidDocumentException {
    Faults faults = new Faults();
    Fields top =
        JsonDocument.read(source, text, faults)
            .object("schema", "visit", "plan", "date", "clinician", "ticks");
    top.required("schema").word(List.of(SCHEMA), word -> word);
    RunningVisit running =
        new RunningVisit(
            top.required("visit").whole(1, 100),
            top.required("plan").text(),
            top.required("date").date(),
            top.required("clinician").text(),
            ticks(top.required("ticks"), numbering));
    faults.check();
    return running;
  }

  private static List<Tick> ticks(Node list, Numbering numbering) {
    List<Tick> ticks = new ArrayList<>();
    for (Node node : list.items(0, MOST_TICKS)) {
      Fields fields = node.object("number", "at", "do", "of", "text", "order", "found");
      ticks.add(
          new Tick(
              fields.required("number").whole(1, MOST_TICKS),
              moment(fields.required("at")),
              fields.required("do").word(List.of(Kind.values()), Kind::word),
              fields.optional("of").map(of -> of.whole(0, MOST_TICKS)).orElse(-1),
              fields.optional("text").map(one -> one.text(MOST_TEXT)).orElse(""),
              fields.optional("order").map(Node::items).orElse(List.of()).stream()
                  .map(one -> one.whole(0, MOST_TICKS))
                  .toList(),
              found(fields, numbering)));
    }
    return ticks;
  }

  private static @Nullable Observation found(Fields fields, Numbering numbering) {
    @Nullable Node node = fields.optional("found").orElse(null);
    return node == null ? null : VisitRecordReader.finding(node, numbering);
  }

  /** To the millisecond, since parts may take seconds. */
  private static Instant moment(Node node) {
    String text = node.text();
    try {
      return node.isText() ? Instant.parse(text).truncatedTo(ChronoUnit.MILLIS) : Instant.EPOCH;
    } catch (DateTimeException none) {
      node.fault("a moment such as 2026-03-02T09:00:12.345Z");
      return Instant.EPOCH;
    }
  }

  /**
   * Reads ticks that a browser sends, a list as in the document.
   *
   * @param numbering of the chart
   * @throws InvalidDocumentException with every fault
   */
  public static List<Tick> ticks(String source, String text, Numbering numbering)
      throws InvalidDocumentException {
    Faults faults = new Faults();
    List<Tick> ticks =
        ticks(JsonDocument.read(source, text, faults).object("ticks").required("ticks"), numbering);
    faults.check();
    return ticks;
  }

  /** With more ticks; those that are known already stay as they are. */
  public RunningVisit with(List<Tick> more) {
    List<Tick> all = new ArrayList<>(ticks);
    all.addAll(more);
    return new RunningVisit(visit, plan, date, clinician, all);
  }

  /**
   * The document.
   *
   * @param numbering of the chart
   */
  public String text(Numbering numbering) {
    Map<String, Object> root = new LinkedHashMap<>();
    root.put("schema", SCHEMA);
    root.put("visit", visit);
    root.put("plan", plan);
    root.put("date", date.toString());
    root.put("clinician", clinician);
    root.put("ticks", ticks.stream().map(tick -> fields(tick, numbering)).toList());
    return JsonLayout.rows(root);
  }

  private static Map<String, Object> fields(Tick tick, Numbering numbering) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("number", tick.number());
    fields.put("at", tick.at().toString());
    fields.put("do", tick.kind().word());
    if (tick.of() >= 0) {
      fields.put("of", tick.of());
    }
    if (!tick.text().isEmpty()) {
      fields.put("text", tick.text());
    }
    if (!tick.order().isEmpty()) {
      fields.put("order", tick.order());
    }
    if (tick.found() != null) {
      fields.put("found", VisitRecordReader.fields(tick.found(), numbering));
    }
    return fields;
  }

  /** The ticks that hold: without those taken back, and what took them back. */
  public List<Tick> holding() {
    List<Tick> holding = new ArrayList<>();
    ticks.forEach(tick -> hold(tick, holding));
    return List.copyOf(holding);
  }

  private static void hold(Tick tick, List<Tick> holding) {
    if (tick.kind() != Kind.UNDO) {
      holding.add(tick);
    } else if (!holding.isEmpty()) {
      holding.remove(holding.size() - 1);
    }
  }

  /** The places of the plan's sequence that are over, in the order in which they were. */
  public List<Integer> over() {
    return ended().stream().map(Tick::of).distinct().toList();
  }

  /**
   * The ticks by which entries of the plan's sequence are over, in their order; an injection that
   * was given again is over once more.
   */
  public List<Tick> ended() {
    return ended(holding());
  }

  private static List<Tick> ended(List<Tick> ticks) {
    Set<Integer> over = new TreeSet<>();
    return ticks.stream()
        .filter(tick -> OVER.contains(tick.kind()) && tick.of() >= 0)
        .filter(tick -> tick.kind() == Kind.AGAIN ? over.contains(tick.of()) : over.add(tick.of()))
        .toList();
  }

  /** What was answered and what was noted, one by one, in their order. */
  public List<String> notes() {
    return holding().stream()
        .filter(tick -> tick.kind() == Kind.ANSWER || tick.kind() == Kind.NOTE)
        .map(tick -> tick.kind() == Kind.ANSWER ? "Asked: " + tick.text() : tick.text())
        .toList();
  }

  /** The order that what is left has been put into last; empty where it is as planned. */
  public Optional<Order> order() {
    List<Tick> holding = holding();
    for (int i = holding.size() - 1; i >= 0; i--) {
      if (holding.get(i).kind() == Kind.ORDER) {
        Tick order = holding.get(i);
        return Optional.of(
            new Order(
                ended(holding.subList(0, i)),
                order.order(),
                Duration.between(holding.get(0).at(), order.at())));
      }
    }
    return Optional.empty();
  }

  /** Whether every stop question of a visit has been answered. */
  public boolean answered(Visit planned) {
    return answered(planned, holding());
  }

  private static boolean answered(Visit planned, List<Tick> holding) {
    return IntStream.range(0, planned.stopQuestions().size())
        .allMatch(
            question ->
                holding.stream()
                    .anyMatch(
                        tick ->
                            tick.kind() == Kind.ANSWER
                                && tick.of() == question
                                && !tick.text().isBlank()));
  }

  /** Whether each number from 1 on is there, so that no tick was lost on the way. */
  public boolean whole() {
    return ticks.isEmpty() || ticks.get(ticks.size() - 1).number() == ticks.size();
  }

  /** Whether nothing was ticked as over before every stop question had its answer. */
  public boolean heedsStops(Visit planned) {
    List<Tick> holding = new ArrayList<>();
    for (Tick tick : ticks) {
      if (OVER.contains(tick.kind()) && !answered(planned, holding)) {
        return false;
      }
      hold(tick, holding);
    }
    return true;
  }

  /**
   * The record that follows, for {@link Recorder#record}: what was not ticked was not done, and the
   * time of each part is that from the tick before it, pauses left out.
   *
   * @param planned the visit of the plan
   * @param numbering of the chart
   * @param perAspect gel cartridges for an aspect, by the practice
   */
  public Said said(Visit planned, Numbering numbering, double perAspect) {
    return new Said.InDocument("the visit", document(planned, numbering, perAspect));
  }

  private String document(Visit planned, Numbering numbering, double perAspect) {
    List<Entry> sequence = planned.sequence();
    Map<Integer, Double> shares = new LinkedHashMap<>();
    Map<String, Double> gel = new TreeMap<>();
    List<Object> given = new ArrayList<>();
    List<Object> found = new ArrayList<>();
    Map<AreaRef, Map<Pass, Double>> parts = new LinkedHashMap<>();
    int injected = 0;
    @Nullable Instant first = null;
    @Nullable Instant last = null;
    @Nullable Instant paused = null;
    Duration rest = Duration.ZERO;
    Duration pauses = Duration.ZERO;
    boolean interrupted = false;
    Map<Integer, GivenInjection> injections = injections(planned);
    for (Tick tick : holding()) {
      if (first == null) {
        first = tick.at();
        last = tick.at();
      }
      switch (tick.kind()) {
        case PAUSE -> paused = tick.at();
        case RESUME -> {
          if (paused != null) {
            Duration pause = Duration.between(paused, tick.at());
            rest = rest.plus(pause);
            pauses = pauses.plus(pause);
            paused = null;
            interrupted = true;
          }
        }
        case ORDER, NOTE, ANSWER -> {}
        case FOUND -> {
          if (tick.found() != null) {
            found.add(VisitRecordReader.fields(tick.found(), numbering));
          }
        }
        case AGAIN -> {
          @Nullable GivenInjection one = injections.get(tick.of());
          if (one != null) {
            given.add(given(one, numbering));
            Map<String, Object> failed = place(one, numbering);
            failed.put("what", "failed-injection");
            found.add(failed);
          }
        }
        default -> {
          if (tick.of() >= 0 && tick.of() < sequence.size()) {
            Entry entry = sequence.get(tick.of());
            boolean done = tick.kind() != Kind.SKIP;
            if (entry instanceof Entry.Inject && done) {
              GivenInjection one = injections.get(tick.of());
              if (one != null) {
                given.add(injected++, given(one, numbering));
              }
            } else if (entry instanceof Entry.ApplyGel put && done) {
              gel.merge(
                  put.area().quadrant().name(),
                  put.aspect().aspects().size() * perAspect,
                  Double::sum);
            } else if (entry instanceof Entry.Debride step) {
              shares.put(tick.of(), done ? tick.kind() == Kind.PART ? PART : 1.0 : 0.0);
              Duration took =
                  last == null ? Duration.ZERO : Duration.between(last, tick.at()).minus(rest);
              if (done) {
                parts
                    .computeIfAbsent(step.area(), area -> new TreeMap<>())
                    .merge(step.pass(), Math.max(0, took.toSeconds() / MINUTE), Double::sum);
              }
            }
          }
        }
      }
      if (OVER.contains(tick.kind()) || tick.kind() == Kind.ANSWER) {
        last = tick.at();
        rest = Duration.ZERO;
      }
    }
    Map<String, Object> root = new LinkedHashMap<>();
    root.put("schema", VisitRecordReader.SCHEMA);
    root.put("numbering", numbering.word());
    root.put("visit", visit);
    root.put("date", date.toString());
    root.put("clinician", clinician);
    if (first != null && last != null) {
      double minutes = Duration.between(first, last).minus(pauses).toSeconds() / MINUTE;
      root.put("minutes", Math.max(1, hundredths(minutes)));
    }
    root.put("parts", parts(parts, numbering));
    root.put("interrupted", interrupted);
    root.put("steps", steps(sequence, shares, numbering));
    root.put("injections", given);
    root.put("gelCartridges", gel);
    root.put("found", found);
    if (!notes().isEmpty()) {
      root.put("note", String.join("; ", notes()));
    }
    return JsonLayout.text(root);
  }

  private static double hundredths(double value) {
    return Math.round(value * 100) / 100.0;
  }

  /** The visit's injections by their entries, in the order in which they are given. */
  private static Map<Integer, GivenInjection> injections(Visit planned) {
    Map<Integer, GivenInjection> injections = new LinkedHashMap<>();
    List<GivenInjection> left = new ArrayList<>(planned.injections());
    List<Entry> sequence = planned.sequence();
    for (int i = 0; i < sequence.size(); i++) {
      if (sequence.get(i) instanceof Entry.Inject inject) {
        for (GivenInjection one : left) {
          if (one.ref().equals(inject.injection())) {
            injections.put(i, one);
            left.remove(one);
            break;
          }
        }
      }
    }
    return injections;
  }

  private static Map<String, Object> place(GivenInjection one, Numbering numbering) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("injection", one.injection());
    fields.put("quadrant", one.quadrant().name());
    if (one.tooth() != null) {
      fields.put("tooth", numbering.name(one.tooth()));
    }
    return fields;
  }

  private static Map<String, Object> given(GivenInjection one, Numbering numbering) {
    Map<String, Object> fields = place(one, numbering);
    fields.put("agent", one.agent());
    fields.put("ml", one.ml());
    return fields;
  }

  private static List<Object> parts(Map<AreaRef, Map<Pass, Double>> parts, Numbering numbering) {
    List<Object> list = new ArrayList<>();
    parts.forEach(
        (area, passes) ->
            passes.forEach(
                (pass, minutes) -> {
                  Map<String, Object> fields = new LinkedHashMap<>();
                  fields.put("area", area.name(numbering));
                  fields.put("pass", pass.word());
                  fields.put("minutes", hundredths(minutes));
                  list.add(fields);
                }));
    return list;
  }

  private static Map<String, Object> step(Entry.Debride step, Numbering numbering) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("area", step.area().name(numbering));
    fields.put("pass", step.pass().word());
    fields.put("aspect", step.aspect().word());
    fields.put("teeth", step.teeth().stream().map(numbering::name).toList());
    return fields;
  }

  /** Each step of the plan by its own share; one that was not ticked was not done. */
  private static List<Object> steps(
      List<Entry> sequence, Map<Integer, Double> shares, Numbering numbering) {
    List<Object> list = new ArrayList<>();
    for (int i = 0; i < sequence.size(); i++) {
      if (sequence.get(i) instanceof Entry.Debride step) {
        Map<String, Object> fields = step(step, numbering);
        fields.put("share", shares.getOrDefault(i, 0.0));
        list.add(fields);
      }
    }
    return list;
  }
}
