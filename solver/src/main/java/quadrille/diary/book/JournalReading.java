package quadrille.diary.book;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.document.Fields;
import quadrille.document.Node;

/** Reads a diary's journal. It may tell of clinicians, chairs and sets that are there no more. */
final class JournalReading {

  private final DiaryReader.Known known;

  JournalReading(DiaryReader.Known known) {
    this.known = known.whatever();
  }

  List<JournalEntry> entries(Fields root) {
    List<JournalEntry> entries = new ArrayList<>();
    for (Node node : root.optional("journal").map(Node::items).orElse(List.of())) {
      entries.add(entry(node, entries.isEmpty() ? 0 : entries.get(entries.size() - 1).number()));
    }
    return entries;
  }

  private JournalEntry entry(Node node, int last) {
    Fields fields =
        node.object(
            "number",
            "at",
            "by",
            "did",
            "because",
            "note",
            "undoes",
            "bookings",
            "courses",
            "absences");
    Node numberNode = fields.required("number");
    int number = numberNode.whole(1, Integer.MAX_VALUE);
    if (number <= last && numberNode.isNumber()) {
      numberNode.fault("a number above " + last + ", that of the entry before");
    }
    return new JournalEntry(
        number,
        fields.required("at").moment(known.zone()),
        fields.required("by").text(),
        fields.required("did").word(Deed.ALL, Deed::word),
        why(fields),
        fields.optional("note").map(Node::text).orElse(null),
        fields.optional("undoes").map(one -> one.whole(1, Integer.MAX_VALUE)).orElse(0),
        DiaryReader.each(fields, "bookings", this::booking),
        DiaryReader.each(fields, "courses", this::course),
        DiaryReader.each(fields, "absences", JournalReading::absence));
  }

  private static @Nullable Why why(Fields fields) {
    return fields.optional("because").map(node -> node.word(Why.ALL, Why::word)).orElse(null);
  }

  private JournalEntry.BookingChange booking(Node node) {
    Fields fields = node.object("because", "from", "to");
    if (!fields.has("from") && !fields.has("to")) {
      // What it was or what it became; else nothing was changed.
      fields.required("to").text();
    }
    return new JournalEntry.BookingChange(
        why(fields),
        fields.optional("from").map(one -> DiaryReader.booking(one, known, null)).orElse(null),
        fields.optional("to").map(one -> DiaryReader.booking(one, known, null)).orElse(null));
  }

  private JournalEntry.CourseChange course(Node node) {
    Fields fields = node.object("from", "to");
    if (!fields.has("from") && !fields.has("to")) {
      fields.required("to").text();
    }
    CourseReading reading = new CourseReading(known);
    return new JournalEntry.CourseChange(
        fields.optional("from").map(reading::course).orElse(null),
        fields.optional("to").map(reading::course).orElse(null));
  }

  private static JournalEntry.Absence absence(Node node) {
    Fields fields = node.object("clinician", "off", "taken");
    return new JournalEntry.Absence(
        fields.optional("clinician").map(Node::text).orElse(null),
        HoursReading.off(fields.required("off")),
        fields.optional("taken").map(Node::truth).orElse(false));
  }
}
