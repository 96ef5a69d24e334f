package cli

import (
	"strings"

	"github.com/spf13/cobra"

	"gaugesheet/report/job"
	"gaugesheet/templates"
)

// languageFlag is the flag of every command that says sentences.
func languageFlag(cmd *cobra.Command, language *string) {
	cmd.Flags().StringVar(language, "language", "", "`language` of the words: "+strings.Join(templates.Languages(), " or ")+" (the job file's own where not given)")
	completeWords(cmd, "language", templates.Languages())
}

// knownLanguage checks what the flag says, in small letters or large.
func knownLanguage(language *string) error {
	for _, known := range templates.Languages() {
		if strings.EqualFold(*language, known) {
			*language = known
		}
	}
	return known("language", *language, templates.Languages())
}

// inLanguage has a job said in the language asked for, if one is.
func inLanguage(j *job.Job, language string) {
	if language != "" {
		j.Language = job.Text{Value: language}
	}
}
