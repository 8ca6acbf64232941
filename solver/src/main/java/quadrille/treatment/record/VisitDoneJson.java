package quadrille.treatment.record;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.document.Fields;
import quadrille.document.Node;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Half;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.FormerNames;
import quadrille.facts.practice.Pass;
import quadrille.plan.work.StepAspect;

/**
 * The record of a visit as JSON: everything spelt out, nothing left to be taken for granted. Teeth,
 * and areas that were cut between two teeth, are named in one numbering.
 */
final class VisitDoneJson {
  static final List<String> SITES = List.of("distal", "middle", "mesial");

  static final int MOST_VISIT = 100;
  static final int DAY_MINUTES = 24 * 60;
  static final double MOST_ML = 100;
  static final double MOST_GEL = 100;

  /** All answers and notes of a visit at the chair are in it. */
  static final int NOTE = 20_000;

  static final int DEEPEST_MM = 20;

  private final Numbering numbering;

  VisitDoneJson(Numbering numbering) {
    this.numbering = numbering;
  }

  Map<String, Object> tree(VisitDone done) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("visit", done.visit());
    fields.put("date", done.date().toString());
    fields.put("clinician", done.clinician());
    fields.put("steps", done.steps().stream().map(this::step).toList());
    fields.put("injections", done.injections().stream().map(this::given).toList());
    Map<String, Object> gel = new LinkedHashMap<>();
    done.gelCartridges().forEach((quadrant, cartridges) -> gel.put(quadrant.name(), cartridges));
    fields.put("gelCartridges", gel);
    if (done.minutes() != null) {
      fields.put("minutes", done.minutes());
    }
    fields.put("parts", done.parts().stream().map(this::part).toList());
    fields.put("bookedMinutes", done.bookedMinutes());
    fields.put("interrupted", done.interrupted());
    fields.put("found", done.findings().stream().map(this::finding).toList());
    if (!done.note().isEmpty()) {
      fields.put("note", done.note());
    }
    return fields;
  }

  private Map<String, Object> step(StepDone step) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("area", step.area().name(numbering));
    fields.put("pass", step.pass().word());
    fields.put("aspect", step.aspect().word());
    fields.put("teeth", step.teeth().stream().map(numbering::name).toList());
    fields.put("insert", step.insert());
    fields.put("share", step.share());
    return fields;
  }

  private Map<String, Object> given(Given given) {
    Map<String, Object> fields = new LinkedHashMap<>();
    place(fields, given.injection(), given.quadrant(), given.tooth());
    fields.put("agent", given.agent());
    fields.put("ml", given.ml());
    return fields;
  }

  private void place(
      Map<String, Object> fields, String injection, Quadrant quadrant, @Nullable Tooth tooth) {
    fields.put("injection", injection);
    fields.put("quadrant", quadrant.name());
    if (tooth != null) {
      fields.put("tooth", numbering.name(tooth));
    }
  }

  private Map<String, Object> part(PartMinutes part) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("area", part.area().name(numbering));
    fields.put("pass", part.pass().word());
    fields.put("minutes", part.minutes());
    return fields;
  }

  Map<String, Object> finding(Observation finding) {
    Map<String, Object> fields = new LinkedHashMap<>();
    if (finding instanceof Observation.Depth depth) {
      fields.put("what", Found.DEPTH.word());
      fields.put("tooth", numbering.name(depth.tooth()));
      fields.put("aspect", depth.aspect().word());
      fields.put("site", SITES.get(depth.site()));
      fields.put("depthMm", depth.depthMm());
      if (depth.bleeding() != null) {
        fields.put("bleeding", depth.bleeding());
      }
    } else if (finding instanceof Observation.FailedInjection failed) {
      fields.put("what", Found.FAILED.word());
      place(fields, failed.injection(), failed.quadrant(), failed.tooth());
      if (failed.minutes() != null) {
        fields.put("minutes", failed.minutes());
      }
    } else if (finding instanceof Observation.Pus pus) {
      fields.put("what", Found.PUS.word());
      fields.put("tooth", numbering.name(pus.tooth()));
      fields.put("aspect", pus.aspect().word());
    } else if (finding instanceof Observation.BrokenSleeve broken) {
      fields.put("what", Found.SLEEVE.word());
      fields.put("tooth", numbering.name(broken.tooth()));
    }
    return fields;
  }

  enum Found {
    DEPTH("depth"),
    FAILED("failed-injection"),
    PUS("pus"),
    SLEEVE("broken-sleeve");

    private final String word;

    Found(String word) {
      this.word = word;
    }

    String word() {
      return word;
    }
  }

  VisitDone read(Node node) {
    Fields fields =
        node.object(
            "visit",
            "date",
            "clinician",
            "steps",
            "injections",
            "gelCartridges",
            "minutes",
            "parts",
            "bookedMinutes",
            "interrupted",
            "found",
            "note");
    List<StepDone> steps = new ArrayList<>();
    for (Node one : fields.required("steps").items()) {
      steps.add(step(one));
    }
    List<Given> injections = new ArrayList<>();
    for (Node one : fields.required("injections").items()) {
      injections.add(given(one));
    }
    List<PartMinutes> parts = new ArrayList<>();
    for (Node one : fields.required("parts").items()) {
      parts.add(part(one));
    }
    List<Observation> findings = new ArrayList<>();
    for (Node one : fields.required("found").items()) {
      finding(one, findings);
    }
    return new VisitDone(
        fields.required("visit").whole(1, MOST_VISIT),
        fields.required("date").date(),
        fields.required("clinician").text(),
        steps,
        injections,
        gel(fields.required("gelCartridges")),
        fields.optional("minutes").map(n -> n.number(0, DAY_MINUTES)).orElse(null),
        parts,
        fields.required("bookedMinutes").whole(1, DAY_MINUTES),
        fields.required("interrupted").truth(),
        findings,
        fields.optional("note").map(n -> n.text(NOTE)).orElse(""));
  }

  static SortedMap<Quadrant, Double> gel(Node node) {
    List<String> quadrants = Stream.of(Quadrant.values()).map(Quadrant::name).toList();
    Fields fields = node.object(quadrants);
    SortedMap<Quadrant, Double> gel = new TreeMap<>();
    for (Quadrant quadrant : Quadrant.values()) {
      fields.optional(quadrant.name()).ifPresent(one -> gel.put(quadrant, one.number(0, MOST_GEL)));
    }
    return gel;
  }

  private StepDone step(Node node) {
    Fields fields = node.object("area", "pass", "aspect", "teeth", "insert", "share");
    List<Tooth> teeth = new ArrayList<>();
    for (Node one : fields.required("teeth").items(1, 16)) {
      @Nullable Tooth tooth = tooth(one);
      if (tooth != null) {
        teeth.add(tooth);
      }
    }
    return new StepDone(
        area(fields.required("area")),
        fields.required("pass").word(List.of(Pass.values()), Pass::word),
        fields.required("aspect").word(List.of(StepAspect.values()), StepAspect::word),
        teeth,
        FormerNames.insert(fields.required("insert").text()),
        fields.required("share").number(0, 1));
  }

  /** The area of a name in the numbering of this document. */
  private AreaRef area(Node node) {
    Optional<AreaRef> area = AreaRef.named(node.text(), numbering);
    if (node.isText() && area.isEmpty()) {
      node.fault(
          "half a quadrant, such as \"UR posterior\", or a part, such as \"UR posterior 18-17\"");
    }
    return area.orElse(AreaRef.whole(Quadrant.UR, Half.POSTERIOR));
  }

  private Given given(Node node) {
    Fields fields = node.object("injection", "quadrant", "tooth", "agent", "ml");
    return new Given(
        fields.required("injection").text(),
        quadrant(fields),
        fields.optional("tooth").map(this::tooth).orElse(null),
        fields.required("agent").text(),
        fields.required("ml").number(0.01, MOST_ML));
  }

  private static Quadrant quadrant(Fields fields) {
    return fields.required("quadrant").word(List.of(Quadrant.values()), Quadrant::name);
  }

  private PartMinutes part(Node node) {
    Fields fields = node.object("area", "pass", "minutes");
    return new PartMinutes(
        area(fields.required("area")),
        fields.required("pass").word(List.of(Pass.values()), Pass::word),
        fields.required("minutes").number(0, DAY_MINUTES));
  }

  void finding(Node node, List<Observation> findings) {
    Found what = node.map().required("what").word(List.of(Found.values()), Found::word);
    switch (what) {
      case DEPTH -> {
        Fields fields = node.object("what", "tooth", "aspect", "site", "depthMm", "bleeding");
        @Nullable Tooth tooth = tooth(fields.required("tooth"));
        Aspect aspect = fields.required("aspect").word(List.of(Aspect.values()), Aspect::word);
        int site = SITES.indexOf(fields.required("site").word(SITES, word -> word));
        int depth = fields.required("depthMm").whole(0, DEEPEST_MM);
        @Nullable Boolean bleeding = fields.optional("bleeding").map(Node::truth).orElse(null);
        if (tooth != null) {
          findings.add(new Observation.Depth(tooth, aspect, site, depth, bleeding));
        }
      }
      case FAILED -> {
        Fields fields = node.object("what", "injection", "quadrant", "tooth", "minutes");
        @Nullable Tooth tooth = fields.optional("tooth").map(this::tooth).orElse(null);
        findings.add(
            new Observation.FailedInjection(
                fields.required("injection").text(),
                tooth == null || fields.has("quadrant") ? quadrant(fields) : tooth.quadrant(),
                tooth,
                fields.optional("minutes").map(one -> one.number(0, DAY_MINUTES)).orElse(null)));
      }
      case PUS -> {
        Fields fields = node.object("what", "tooth", "aspect");
        @Nullable Tooth tooth = tooth(fields.required("tooth"));
        Aspect aspect = fields.required("aspect").word(List.of(Aspect.values()), Aspect::word);
        if (tooth != null) {
          findings.add(new Observation.Pus(tooth, aspect));
        }
      }
      case SLEEVE -> {
        @Nullable Tooth tooth = tooth(node.object("what", "tooth").required("tooth"));
        if (tooth != null) {
          findings.add(new Observation.BrokenSleeve(tooth));
        }
      }
    }
  }

  /** The tooth, or null where a fault says that it is none. */
  @Nullable Tooth tooth(Node node) {
    @Nullable Tooth tooth = node.isText() ? numbering.tooth(node.text()).orElse(null) : null;
    if (tooth == null) {
      node.fault(
          switch (numbering) {
            case ISO3950 -> "an ISO 3950 code in quotes, \"11\" to \"48\"";
            case UNIVERSAL -> "the number of a tooth in quotes, \"1\" to \"32\"";
          });
    }
    return tooth;
  }
}
