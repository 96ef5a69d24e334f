package cli

import "testing"

func TestVersionDate(t *testing.T) {
	for _, tt := range []struct{ version, commit, want string }{
		{"v0.0.0-20260514093000-0123456789ab", "2026-01-01T00:00:00Z", "2026-05-14"},
		{"v1.2.1-0.20260514093000-0123456789ab", "", "2026-05-14"},
		{"v1.2.0", "2026-05-13T23:30:00-05:00", "2026-05-14"},
		{"devel", "", ""},
	} {
		if got := versionDate(tt.version, tt.commit); got != tt.want {
			t.Errorf("%s of %s: %q, want %q", tt.version, tt.commit, got, tt.want)
		}
	}
}
