"""Puts the site of a case on disk: frames, pages, staging and the exchange of folders."""

from assurance.publish.publishing import PublishSummary, publish
from assurance.publish.staging import SiteFolderRefused

__all__ = ["PublishSummary", "SiteFolderRefused", "publish"]
