package quadrille.treatment.recording;

import quadrille.document.Faults;
import quadrille.document.InvalidDocumentException;
import quadrille.document.Node;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.VisitDone;
import quadrille.treatment.record.VisitRecordReader;

/** What somebody says of a visit, not yet held against anything. */
public sealed interface Said {

  /**
   * Holds it against a log and fills in from the plan what was not said.
   *
   * @param corrects number of the entry that it corrects; 0 for a new record
   * @throws InvalidDocumentException with every fault, each at its own place
   */
  VisitDone read(CourseLog log, int corrects) throws InvalidDocumentException;

  /**
   * A visit's document, as {@link VisitRecordReader} describes it.
   *
   * @param source its name, for faults
   */
  record InDocument(String source, String text) implements Said {
    @Override
    public VisitDone read(CourseLog log, int corrects) throws InvalidDocumentException {
      return VisitRecordReader.read(source, text, log, corrects);
    }
  }

  /** Answers with places of their own, such as options; teeth as the course's chart names them. */
  record InAnswers(Answers answers) implements Said {
    @Override
    public VisitDone read(CourseLog log, int corrects) throws InvalidDocumentException {
      Faults faults = new Faults();
      return VisitRecordReader.read(answers.tree(faults), faults, log, corrects);
    }
  }

  /** Answers as a tree of the same keys as a visit's document. */
  interface Answers {
    Node tree(Faults faults);
  }
}
