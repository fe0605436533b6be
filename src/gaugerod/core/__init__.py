"""The computation: pure stages, each using only the results of earlier ones."""
