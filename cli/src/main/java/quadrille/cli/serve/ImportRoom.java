package quadrille.cli.serve;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.cli.serve.PracticeFolder.Text;
import quadrille.document.ChangedFileException;
import quadrille.document.Expected;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Numbering;
import quadrille.facts.exchange.ForeignChart;
import quadrille.facts.exchange.ForeignCharts;
import quadrille.facts.exchange.Mapping;
import quadrille.facts.exchange.Mapping.Code;
import quadrille.facts.exchange.Meaning;
import quadrille.facts.exchange.Meaning.What;

/**
 * Takes over what another program exports, by the practice's mapping. Where the mapping does not
 * know a column or a code yet, a person says what it means, and the mapping keeps it.
 */
final class ImportRoom {

  private static final String NAME = "what was exported";

  /** Each comes with all its choices; nobody looks at more. */
  private static final int MOST_LINES = 1000;

  private static final String CONFIRMED = "confirmed";
  private static final String ANOTHER = "The mapping is another one by now; look again.";

  private final PracticeFolder folder;

  ImportRoom(PracticeFolder folder) {
    this.folder = folder;
  }

  Optional<Reply> answer(Request request) throws IOException, InvalidDocumentException {
    if (request.reading()) {
      return Optional.of(Reply.html(Views.view("import", ImportPage.blank(folder.demo()))));
    }
    return request.is("POST") ? Optional.of(take(request.form())) : Optional.empty();
  }

  private Reply take(Map<String, String> form) throws IOException, InvalidDocumentException {
    String text = form.getOrDefault("text", "");
    Optional<Text> file = folder.mappingText();
    String revision = Request.revision(file.map(Text::revision).orElse(Expected.NOTHING));
    @Nullable Mapping known =
        file.isPresent() ? Mapping.read(PracticeFolder.MAPPING, file.get().text()) : null;
    Mapping proposed;
    try {
      proposed = numbered(merged(ForeignCharts.proposed(NAME, text), known), text);
    } catch (InvalidDocumentException noExport) {
      return page(422, text, revision, Mapping.NOTHING, faults(noExport));
    }
    int lines = proposed.columns().size() + proposed.codes().size();
    if (lines > MOST_LINES) {
      return page(
          422,
          "",
          revision,
          Mapping.NOTHING,
          List.of(lines + " columns or codes; at most " + MOST_LINES + " can be looked at."));
    }
    if (form.containsKey(CONFIRMED)) {
      if (!revision.equals(form.get("revision"))) {
        // What was said is of the lines of another mapping, and may stand at the wrong ones of
        // this.
        return page(412, text, revision, proposed, List.of(ANOTHER));
      }
      Mapping said = said(form, proposed);
      List<String> open = open(said, text);
      if (!open.isEmpty()) {
        return page(422, text, revision, said, open);
      }
      try {
        folder.writeMapping(
            said.asConfirmed().text(), file.map(Text::revision).orElse(Expected.NOTHING));
      } catch (ChangedFileException | FileAlreadyExistsException other) {
        return page(412, text, revision, said, List.of(ANOTHER));
      }
      return taken(text, said.asConfirmed(), revision);
    }
    return known != null
            && (ForeignCharts.isFhir(text) || known.numbering() == proposed.numbering())
            && open(proposed, text).isEmpty()
            && knowsWords(proposed, known)
        ? taken(text, proposed.asConfirmed(), revision)
        : page(200, text, revision, proposed, List.of());
  }

  /**
   * As its own teeth tell, whatever was said of another table: where they do not tell, a person is
   * asked each time, for in the wrong numbering every tooth would be another.
   */
  private static Mapping numbered(Mapping mapping, String text) throws InvalidDocumentException {
    if (ForeignCharts.isFhir(text)) {
      return mapping;
    }
    List<Numbering> by = ForeignCharts.numberings(NAME, text, mapping);
    return mapping.numbered(by.size() == 1 ? by.get(0) : null);
  }

  private static boolean knowsWords(Mapping proposed, Mapping known) {
    return proposed.words().entrySet().stream()
        .allMatch(
            of ->
                known
                    .words()
                    .getOrDefault(of.getKey(), Map.of())
                    .keySet()
                    .containsAll(of.getValue().keySet()));
  }

  private static List<String> faults(InvalidDocumentException invalid) {
    return invalid.faults().stream().map(Fault::message).toList();
  }

  /** What is known already goes before what is proposed, and stays where this text lacks it. */
  private static Mapping merged(Mapping proposed, @Nullable Mapping known) {
    if (known == null) {
      return proposed;
    }
    Map<String, @Nullable Meaning> columns = new LinkedHashMap<>(proposed.columns());
    columns.putAll(known.columns());
    Map<Code, @Nullable Meaning> codes = new LinkedHashMap<>(proposed.codes());
    codes.keySet().removeIf(code -> known.toothSystems().containsKey(code.system()));
    codes.putAll(known.codes());
    Map<What, Map<String, @Nullable String>> words = new LinkedHashMap<>();
    Stream.of(proposed.words(), known.words())
        .forEach(
            some ->
                some.forEach(
                    (what, said) ->
                        words.computeIfAbsent(what, one -> new LinkedHashMap<>()).putAll(said)));
    return new Mapping(
        false,
        known.numbering() == null ? proposed.numbering() : known.numbering(),
        columns,
        words,
        codes,
        known.toothSystems());
  }

  /** The mapping as the form says it. */
  private static Mapping said(Map<String, String> form, Mapping proposed) {
    Map<String, @Nullable Meaning> columns = new LinkedHashMap<>();
    Map<Code, @Nullable Meaning> codes = new LinkedHashMap<>();
    Map<What, Map<String, @Nullable String>> words = new LinkedHashMap<>();
    int at = 0;
    for (Map.Entry<String, @Nullable Meaning> one : proposed.columns().entrySet()) {
      columns.put(one.getKey(), meaning(form, "column-" + at++, one.getValue()));
    }
    at = 0;
    for (Map.Entry<Code, @Nullable Meaning> one : proposed.codes().entrySet()) {
      codes.put(one.getKey(), meaning(form, "code-" + at++, one.getValue()));
    }
    at = 0;
    for (Map.Entry<What, Map<String, @Nullable String>> of : proposed.words().entrySet()) {
      Map<String, @Nullable String> known = new LinkedHashMap<>();
      for (Map.Entry<String, @Nullable String> one : of.getValue().entrySet()) {
        String now = form.getOrDefault("word-" + at++, "").strip();
        // Nothing is as good as the cell itself: what a chart does not take is left open.
        known.put(one.getKey(), now.isEmpty() ? one.getKey() : now);
      }
      words.put(of.getKey(), known);
    }
    @Nullable Numbering numbering =
        form.containsKey("numbering")
            ? Stream.of(Numbering.values())
                .filter(by -> by.word().equals(form.get("numbering")))
                .findFirst()
                .orElse(null)
            : proposed.numbering();
    return new Mapping(false, numbering, columns, words, codes, proposed.toothSystems());
  }

  private static @Nullable Meaning meaning(
      Map<String, String> form, String field, @Nullable Meaning before) {
    return form.containsKey(field) ? Meaning.of(form.get(field)).orElse(null) : before;
  }

  /** What nobody has said yet, of what a text has. */
  private static List<String> open(Mapping mapping, String text) {
    List<String> open = new ArrayList<>();
    mapping
        .columns()
        .forEach(
            (column, meaning) -> {
              if (meaning == null) {
                open.add("Column \u201c" + column + "\u201d: say what it means, or ignore.");
              }
            });
    mapping
        .codes()
        .forEach(
            (code, meaning) -> {
              if (meaning == null) {
                open.add("Code \u201c" + code.code() + "\u201d: say what it means, or ignore.");
              }
            });
    if (!ForeignCharts.isFhir(text) && mapping.numbering() == null) {
      open.add("Say how teeth are numbered.");
    }
    return open;
  }

  private Reply taken(String text, Mapping mapping, String revision) throws IOException {
    try {
      ForeignChart chart = ForeignCharts.read(NAME, text, mapping);
      return Reply.html(
          Views.view(
              "import",
              ImportPage.taken(
                  folder.demo(),
                  "/mouth/" + MouthRoom.begin(folder, chart.text()).id(),
                  chart.notes())));
    } catch (InvalidDocumentException invalid) {
      return page(422, text, revision, mapping, faults(invalid));
    }
  }

  private Reply page(
      int status, String text, String revision, Mapping mapping, List<String> faults) {
    List<ImportPage.Line> lines = new ArrayList<>();
    for (Map.Entry<String, @Nullable Meaning> one : mapping.columns().entrySet()) {
      lines.add(line("column-" + lines.size(), one.getKey(), one.getValue()));
    }
    boolean fhir = ForeignCharts.isFhir(text);
    if (fhir) {
      lines.clear();
      for (Map.Entry<Code, @Nullable Meaning> one : mapping.codes().entrySet()) {
        Code code = one.getKey();
        lines.add(
            line("code-" + lines.size(), code.code() + " of " + code.system(), one.getValue()));
      }
    }
    List<ImportPage.Line> words = new ArrayList<>();
    mapping
        .words()
        .forEach(
            (what, known) ->
                known.forEach(
                    (word, now) ->
                        words.add(
                            new ImportPage.Line(
                                "word-" + words.size(),
                                what.word() + " \u201c" + word + "\u201d",
                                now == null ? "" : now))));
    @Nullable Numbering numbering = mapping.numbering();
    return Reply.html(
        status,
        Views.view(
            "import",
            new ImportPage(
                folder.demo(),
                text,
                revision,
                fhir,
                numbering == null ? "" : numbering.word(),
                lines,
                words,
                Mapping.choices(),
                faults,
                "",
                List.of())));
  }

  private static ImportPage.Line line(String field, String name, @Nullable Meaning now) {
    return new ImportPage.Line(field, name, now == null ? "" : now.text());
  }
}
