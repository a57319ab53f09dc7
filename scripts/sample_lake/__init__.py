# SPDX-FileCopyrightText: 2026 The castplan authors
# SPDX-License-Identifier: Apache-2.0
"""The recipe of the sample lake; run by scripts/make-sample-lake."""
