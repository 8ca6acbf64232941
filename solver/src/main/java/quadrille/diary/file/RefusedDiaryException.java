package quadrille.diary.file;

import java.util.List;
import quadrille.diary.audit.DiaryFinding;

/** The audit found something in a diary that was to be written; nothing has been written. */
public final class RefusedDiaryException extends Exception {
  private static final long serialVersionUID = 1L;

  private final transient List<DiaryFinding> findings;

  /**
   * @param findings at least one
   */
  public RefusedDiaryException(List<DiaryFinding> findings) {
    super(String.join("\n", findings.stream().map(DiaryFinding::line).toList()));
    this.findings = List.copyOf(findings);
  }

  /** What the audit found. */
  public List<DiaryFinding> findings() {
    return findings;
  }
}
