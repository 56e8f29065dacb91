// Gives the precompiled headers a source to hang on.
