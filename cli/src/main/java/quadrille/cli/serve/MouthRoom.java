package quadrille.cli.serve;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.picture.EntryRing;
import quadrille.cli.serve.PracticeFolder.Mouth;
import quadrille.cli.serve.PracticeFolder.Text;
import quadrille.document.ChangedFileException;
import quadrille.document.Expected;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartDraft;
import quadrille.facts.chart.ChartReader;
import quadrille.facts.chart.ChartWriter;
import quadrille.facts.chart.Half;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.UnlikelyDepth;
import quadrille.facts.practice.Practice;
import quadrille.plan.work.Step;
import quadrille.plan.work.UnworkableException;
import quadrille.plan.work.WorkPlanner;

/** A mouth as it is typed: drafts, what they say so far, and the chart in the end. */
final class MouthRoom {

  /** The first line of a draft: the chart on the disk when the typing began. */
  private static final String OF = "# of ";

  /** Of whom nothing is known yet. */
  private static final Patient NOBODY = new Patient(null, null, null, Set.of(), null, false);

  private final PracticeFolder folder;

  MouthRoom(PracticeFolder folder) {
    this.folder = folder;
  }

  Reply begin(Request request) throws IOException, InvalidDocumentException {
    Map<String, String> form = request.form();
    boolean few = "28".equals(form.get("teeth"));
    Numbering numbering =
        Numbering.UNIVERSAL.word().equals(form.get("numbering"))
            ? Numbering.UNIVERSAL
            : Numbering.ISO3950;
    List<Tooth> teeth =
        Tooth.values().stream().filter(tooth -> !few || tooth.position() < 8).toList();
    String empty =
        ChartWriter.emptyLines(numbering, teeth)
            .lines()
            .filter(line -> line.startsWith("numbering") || Character.isDigit(line.charAt(0)))
            .reduce(OF + Request.revision(Expected.NOTHING) + "\ncase ?", (a, b) -> a + "\n" + b);
    return Reply.to("/mouth/" + folder.begin(empty + "\n").id());
  }

  /** Begins a mouth with what was taken over from another program, open where that says nothing. */
  static Mouth begin(PracticeFolder folder, String lines) throws IOException {
    return folder.begin(OF + Request.revision(Expected.NOTHING) + "\n" + lines);
  }

  /** A chart in any form, as tooth lines. */
  Reply takeIn(Request request) {
    try {
      Chart chart = ChartReader.read("pasted", request.text());
      return Reply.json(Map.of("lines", ChartWriter.lines(chart)));
    } catch (InvalidDocumentException invalid) {
      return Reply.json(422, Map.of("faults", faults(invalid.faults())));
    }
  }

  Optional<Reply> answer(Request request, Mouth mouth)
      throws IOException, InvalidDocumentException {
    String what = request.method() + " " + request.part(2);
    return request.path().size() > 3
        ? Optional.empty()
        : switch (what) {
          case "GET ", "HEAD " -> Optional.of(show(mouth));
          case "GET readback", "HEAD readback" -> Optional.of(readback(mouth));
          case "PUT draft" -> Optional.of(keep(request, mouth));
          case "POST look" -> Optional.of(Reply.json(said(request.text(), mouth)));
          case "POST save" -> Optional.of(save(request, mouth));
          case "POST discard" -> Optional.of(discard(request, mouth));
          default -> Optional.empty();
        };
  }

  private Reply show(Mouth mouth) throws IOException, InvalidDocumentException {
    Optional<Text> draft = folder.draft(mouth);
    Optional<Text> chart = folder.chartText(mouth);
    String of =
        draft
            .flatMap(text -> of(text.text()))
            .orElseGet(() -> Request.revision(chart.map(Text::revision).orElse(Expected.NOTHING)));
    String lines = draft.isPresent() ? draft.get().text() : ChartWriter.lines(folder.read(mouth));
    return Reply.html(
        Views.view(
            "mouth",
            new MouthPage(
                folder.demo(),
                "/mouth/" + mouth.id(),
                of,
                Request.revision(draft.map(Text::revision).orElse(Expected.NOTHING)),
                draft.isEmpty(),
                lines,
                Stream.of(Alert.values()).map(Alert::word).toList(),
                EntryRing.of())));
  }

  private static Optional<String> of(String draft) {
    return draft
        .lines()
        .findFirst()
        .filter(line -> line.startsWith(OF))
        .map(line -> line.substring(OF.length()).strip());
  }

  private Reply readback(Mouth mouth) throws IOException {
    String url = "/mouth/" + mouth.id();
    try {
      Chart chart = folder.read(mouth);
      List<String> unlikely =
          UnlikelyDepth.of(
                  chart.teeth(), folder.before(chart.caseName(), chart.charted(), mouth.key()))
              .stream()
              .map(one -> words(one, chart.numbering()))
              .toList();
      return Reply.html(
          Views.view(
              "readback",
              new ReadbackPage(
                  folder.demo(),
                  url,
                  chart.caseName(),
                  ChartWriter.lines(chart),
                  List.of(),
                  unlikely)));
    } catch (InvalidDocumentException invalid) {
      return Reply.html(
          422,
          Views.view(
              "readback",
              new ReadbackPage(
                  folder.demo(),
                  url,
                  mouth.key(),
                  "",
                  invalid.faults().stream().map(Fault::message).toList(),
                  List.of())));
    }
  }

  /** Keeps what has been typed, whatever it is, unless somebody else has typed meanwhile. */
  private Reply keep(Request request, Mouth mouth) throws IOException, InvalidDocumentException {
    Optional<Expected> expected = request.expected();
    if (expected.isEmpty()) {
      return Reply.json(428, Map.of("text", "What was read before is not said."));
    }
    String text = request.text();
    try {
      Expected now = folder.writeDraft(mouth.key(), text, expected.get());
      Map<String, Object> said = new LinkedHashMap<>();
      said.put("revision", Request.revision(now));
      said.putAll(said(text, mouth));
      return Reply.json(said);
    } catch (ChangedFileException | FileAlreadyExistsException other) {
      return Reply.json(412, Map.of("text", "The draft is another one by now."));
    }
  }

  /** What a draft says so far. */
  private Map<String, Object> said(String text, Mouth mouth)
      throws IOException, InvalidDocumentException {
    ChartDraft draft = ChartDraft.of("Line", text);
    Numbering numbering = draft.numbering().orElse(Numbering.ISO3950);
    Map<AreaRef, Integer> seconds = seconds(draft);
    List<Map<String, Object>> areas = new ArrayList<>();
    for (Quadrant quadrant : Quadrant.values()) {
      for (Half half : Half.values()) {
        AreaRef area = AreaRef.whole(quadrant, half);
        areas.add(
            Reply.of("area", area.toString(), "minutes", minutes(seconds.getOrDefault(area, 0))));
      }
    }
    String caseName = draft.chart() == null ? "" : draft.chart().caseName();
    Optional<Chart> before =
        caseName.isEmpty()
            ? Optional.empty()
            : folder.before(
                caseName, draft.chart() == null ? null : draft.chart().charted(), mouth.key());
    List<Map<String, Object>> unlikely = new ArrayList<>();
    for (UnlikelyDepth one : UnlikelyDepth.of(draft.teeth(), before)) {
      unlikely.add(
          Reply.of(
              "tooth",
              one.tooth().toString(),
              "site",
              (one.aspect() == Aspect.FACIAL ? 0 : 3) + one.site(),
              "text",
              words(one, numbering)));
    }
    Map<String, Object> said = new LinkedHashMap<>();
    said.put("whole", draft.chart() != null);
    said.put("faults", faults(draft.faults()));
    said.put("unlikely", unlikely);
    said.put("areas", areas);
    said.put("minutes", minutes(seconds.values().stream().mapToInt(Integer::intValue).sum()));
    return said;
  }

  private static int minutes(int seconds) {
    return Math.round(seconds / 60f);
  }

  /** Working seconds of each area, of the teeth that are whole. */
  private Map<AreaRef, Integer> seconds(ChartDraft draft) throws IOException {
    Map<AreaRef, Integer> seconds = new TreeMap<>();
    Chart soFar =
        draft.chart() != null
            ? draft.chart()
            : new Chart(
                "draft", null, draft.numbering().orElse(Numbering.ISO3950), NOBODY, draft.teeth());
    try {
      Practice practice = folder.practice();
      for (Step step : WorkPlanner.plan(soFar, practice, Area.of(soFar)).steps()) {
        seconds.merge(
            AreaRef.whole(step.area().ref().quadrant(), step.area().ref().half()),
            step.seconds(),
            Integer::sum);
      }
    } catch (UnworkableException | InvalidDocumentException practiceLacks) {
      // The course says so; what is typed is kept all the same, without minutes.
      return Map.of();
    }
    return seconds;
  }

  private static List<Map<String, Object>> faults(List<Fault> faults) {
    return faults.stream()
        .map(fault -> Reply.of("text", fault.message(), "open", ChartDraft.open(fault)))
        .toList();
  }

  private static String words(UnlikelyDepth one, Numbering numbering) {
    String where =
        "Tooth "
            + numbering.name(one.tooth())
            + ", "
            + one.aspect().word()
            + ", "
            + List.of("distal", "middle", "mesial").get(one.site())
            + ": "
            + one.depthMm()
            + " mm";
    @Nullable Integer before = one.before();
    return before == null
        ? where + ", and nothing else on this tooth is deeper than " + one.others() + " mm"
        : where + ", and " + before + " mm in the last chart";
  }

  private Reply save(Request request, Mouth mouth) throws IOException, InvalidDocumentException {
    Optional<Text> draft = folder.draft(mouth);
    Optional<Expected> expected = request.expected();
    if (draft.isEmpty() || !expected.equals(Optional.of(draft.get().revision()))) {
      return Reply.json(412, Map.of("text", "The draft is another one by now. Load it again."));
    }
    ChartDraft said = ChartDraft.of("Line", draft.get().text());
    Chart chart = said.chart();
    if (chart == null) {
      return Reply.json(422, Map.of("faults", faults(said.faults())));
    }
    String of = of(draft.get().text()).orElse("nothing");
    Expected known = of.equals("nothing") ? Expected.NOTHING : new Expected(false, of);
    try {
      Mouth saved = folder.save(mouth, chart, known, draft.get().revision());
      return Reply.json(Map.of("to", "/mouth/" + saved.id() + "/readback"));
    } catch (ChangedFileException | FileAlreadyExistsException other) {
      return both(mouth, chart);
    }
  }

  /** Nothing was written: what is there, and what was to be. */
  private Reply both(Mouth mouth, Chart mine) throws IOException, InvalidDocumentException {
    Map<String, Object> both = new LinkedHashMap<>();
    both.put("mine", ChartWriter.lines(mine));
    if (mouth.chart()) {
      Optional<Text> theirs = folder.chartText(mouth);
      both.put("text", "It was changed after you began. Nothing has been written.");
      both.put("theirs", theirs.map(text -> readable(mouth.key(), text.text())).orElse(""));
      both.put("revision", Request.revision(theirs.map(Text::revision).orElse(Expected.NOTHING)));
    } else {
      String key = folder.fileName(mine.caseName());
      Mouth other = new Mouth(folder.id(key), key, true, false);
      both.put(
          "text",
          "The folder has a chart of this case already; name the case otherwise, as with the day."
              + " Nothing has been written.");
      both.put(
          "theirs", folder.chartText(other).map(text -> readable(key, text.text())).orElse(""));
      both.put("revision", "");
    }
    return Reply.json(409, both);
  }

  private static String readable(String name, String text) {
    try {
      return ChartWriter.lines(ChartReader.read(name, text));
    } catch (InvalidDocumentException invalid) {
      return text;
    }
  }

  private Reply discard(Request request, Mouth mouth) throws IOException {
    Optional<Expected> expected = request.expected();
    if (expected.isEmpty()) {
      return Reply.json(428, Map.of("text", "What was read before is not said."));
    }
    try {
      folder.dropDraft(mouth, expected.get());
    } catch (ChangedFileException other) {
      return Reply.json(412, Map.of("text", "The draft is another one by now."));
    }
    return Reply.to("/mouths");
  }
}
