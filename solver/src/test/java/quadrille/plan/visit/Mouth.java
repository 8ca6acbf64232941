package quadrille.plan.visit;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.SampleWishes;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.Wish;
import quadrille.facts.chart.WishSentences;
import quadrille.facts.practice.Insert;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.PassesTogether;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.anaesthesia.Doses;
import quadrille.plan.work.Step;

/** A hand-made staging problem: a patient, a practice, some steps. Methods change it in place. */
public final class Mouth {
  private final Map<Pass, Integer> chartSeconds = new EnumMap<>(Pass.class);
  private final List<Sweep> sweeps;
  private final Map<AreaRef, Double> burdens = new LinkedHashMap<>();
  private Practice practice = PracticeReader.defaults();
  private Patient patient = adult(75.0);
  private boolean grossFirst;

  /** Null where the practice says it. */
  private @Nullable PassesTogether passesTogether = PassesTogether.SAME_VISIT;

  private Commitments standing = Commitments.NONE;

  private Mouth(List<Sweep> sweeps) {
    this.sweeps = sweeps;
  }

  /** With a healthy adult of 75 kg in the default practice. */
  public static Mouth of(Sweep... sweeps) {
    return new Mouth(List.of(sweeps));
  }

  public static Mouth of(List<Sweep> sweeps) {
    return new Mouth(List.copyOf(sweeps));
  }

  public static Patient adult(@Nullable Double weightKg, Alert... alerts) {
    EnumSet<Alert> all = EnumSet.noneOf(Alert.class);
    all.addAll(List.of(alerts));
    return new Patient(50, weightKg, null, all, null, false);
  }

  /** An adult of 75 kg who sits for so many minutes at most. */
  public static Patient sitting(int longestVisitMinutes) {
    return new Patient(50, 75.0, longestVisitMinutes, Set.of(), null, false);
  }

  /** An adult of 75 kg with a complaint. */
  public static Patient complaining(Quadrant startWith) {
    return new Patient(50, 75.0, null, Set.of(), startWith, false);
  }

  public Mouth patient(Patient other) {
    patient = other;
    return this;
  }

  /** Wishes for the places where there are steps; by chance, the same for the same seed. */
  public Mouth wishing(long seed) {
    List<Tooth> teeth = new ArrayList<>();
    steps().forEach(step -> teeth.addAll(step.teeth()));
    return wishing(SampleWishes.of(teeth, List.of(), new Random(seed)));
  }

  public Mouth wishing(List<Wish> wishes) {
    patient = patient.withWishes(wishes);
    return this;
  }

  /** Wishes as they are said. */
  public Mouth wishing(String... sentences) {
    List<Wish> wishes = new ArrayList<>();
    for (String sentence : sentences) {
      wishes.add(
          WishSentences.read(
                  sentence,
                  Numbering.ISO3950,
                  (found, allowed) -> {
                    throw new IllegalArgumentException(found + ": " + allowed);
                  })
              .orElseThrow());
    }
    return wishing(wishes);
  }

  /**
   * @param json what the practice file changes, without its braces and without its schema
   */
  public Mouth practice(String json) {
    practice = changed(json);
    if (json.contains("passesTogether")) {
      passesTogether = null;
    }
    return this;
  }

  public static Practice changed(String json) {
    try {
      return PracticeReader.read("a test", "{\"schema\": \"quadrille/practice/1\", " + json + "}");
    } catch (InvalidDocumentException e) {
      throw new IllegalArgumentException(e);
    }
  }

  public Mouth burden(String area, double burden) {
    burdens.put(AreaRef.of(area), burden);
    return this;
  }

  /** What stands of the course's visits, in order. */
  public Mouth stands(Commitments.Slot... slots) {
    standing =
        new Commitments(
            List.of(slots),
            standing.given(),
            standing.gelCartridges(),
            standing.setsOpened(),
            standing.lastVisits(),
            standing.begun());
    return this;
  }

  /** A visit of the course has taken place. */
  public Mouth begun() {
    standing =
        new Commitments(
            standing.slots(),
            standing.given(),
            standing.gelCartridges(),
            standing.setsOpened(),
            standing.lastVisits(),
            true);
    return this;
  }

  /** What was given earlier on the day of the first visit. */
  public Mouth given(String agent, double ml) {
    standing =
        new Commitments(
            standing.slots(),
            List.of(new Doses.Amount(Objects.requireNonNull(practice.agents().get(agent)), ml)),
            standing.gelCartridges(),
            standing.setsOpened(),
            standing.lastVisits(),
            standing.begun());
    return this;
  }

  /** Sterile sets of an insert opened earlier on the day of the first visit. */
  public Mouth opened(String insert, int sets) {
    standing =
        new Commitments(
            standing.slots(),
            standing.given(),
            standing.gelCartridges(),
            new TreeMap<>(Map.of(insert, sets)),
            standing.lastVisits(),
            standing.begun());
    return this;
  }

  /** Each step of a pass brings so many seconds of charting. */
  public Mouth charting(Pass pass, int seconds) {
    chartSeconds.put(pass, seconds);
    return this;
  }

  public Mouth grossFirst() {
    grossFirst = true;
    return this;
  }

  /** Each pass of an area may lie in a visit of its own. */
  public Mouth passesApart() {
    passesTogether = PassesTogether.FREE;
    return this;
  }

  public StagingCase inVisits(int visits) {
    return new StagingCase(patient, practice(), steps(), burdens, visits, grossFirst, standing);
  }

  /** The same problem for the enumeration. */
  public Enumeration enumerated(int visits) {
    return new Enumeration(patient, practice(), steps(), burdens, visits);
  }

  public Patient patient() {
    return patient;
  }

  public Practice practice() {
    return passesTogether == null
        ? practice
        : practice.withAppointments(practice.appointments().withPassesTogether(passesTogether));
  }

  public Map<AreaRef, Double> burdens() {
    return burdens;
  }

  public List<Step> steps() {
    List<Step> steps = new ArrayList<>();
    for (Sweep sweep : sweeps) {
      steps.add(step(steps.size(), sweep));
    }
    return steps;
  }

  private Step step(int id, Sweep sweep) {
    Area area = area(sweep.area());
    Insert insert = Objects.requireNonNull(practice.inserts().get(sweep.insert()), sweep.insert());
    return new Step(
        id,
        area,
        sweep.pass(),
        sweep.aspect(),
        insert,
        sweep.power(),
        sweep.seconds(),
        area.teeth(),
        sweep.needs(),
        sweep.gel(),
        Objects.requireNonNull(chartSeconds.getOrDefault(sweep.pass(), 0)),
        "a test");
  }

  /** The teeth of a half quadrant but the third molar, or those of a range. */
  private static Area area(String name) {
    String[] words = name.split(" ");
    Quadrant quadrant = Quadrant.valueOf(words[0]);
    boolean posterior = words[1].equals("posterior");
    int first = posterior ? 4 : 1;
    int last = posterior ? 7 : 3;
    if (words.length > 2) {
      String[] range = words[2].split("-");
      last = Integer.parseInt(range[0]) % 10;
      first = Integer.parseInt(range[range.length - 1]) % 10;
    }
    List<Tooth> teeth = new ArrayList<>();
    for (int position = first; position <= last; position++) {
      teeth.add(new Tooth(quadrant, position));
    }
    return new Area(AreaRef.of(name), teeth);
  }

  @Override
  public String toString() {
    StringBuilder words = new StringBuilder(patient + "; burdens " + burdens);
    for (Sweep sweep : sweeps) {
      words.append("\n  ").append(sweep);
    }
    return words.toString();
  }
}
